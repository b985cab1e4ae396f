/**
 * Name of a tyre in a class, as every paper and table has it: the tyre's own where the class has none, so that a tyre
 * that runs in one class alone keeps its name.
 */
export const tyreInClass = (tyre: string, itsClass: string | undefined): string =>
  itsClass === undefined ? tyre : `${tyre} (${itsClass})`;

/** Name in the case of a tyre that somebody names: with its class, or alone, which means the first class that it runs in. */
export const tyreNamed = (
  tyres: readonly { name: string; tyre: string }[],
  named: string,
): string | undefined =>
  (tyres.find(({ name }) => name === named) ?? tyres.find(({ tyre }) => tyre === named))?.name;
