/** Inputs whose names a workshop does not use: what they are there. The case and the tables keep their own names. */
const PLAIN: Readonly<Record<string, string>> = {
  'growth scale': 'how much the tyre grows with speed',
  'lobe allowance': 'room allowed for waves in the tread',
  'pressure that the carcass is worth against growth': 'how stiff the carcass is against growth',
  'pressure that the carcass is worth in the contact patch':
    'how stiff the carcass is where it stands on the track',
};

/** An input by what it is in a workshop: 'how much the tyre grows with speed'. Its own name where that says it. */
export const inputWords = (label: string): string => PLAIN[label] ?? label;

/** The same with the name of the case beside it, to find it there: 'how much … with speed (growth scale)'. */
export function inputNamed(label: string): string {
  const words = inputWords(label);
  return words === label ? label : `${words} (${label})`;
}
