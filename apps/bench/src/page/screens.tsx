/** What a phone shows one at a time, and a desk all together. */
export type Screen = 'place' | 'measure' | 'learn';

const SCREENS: readonly (readonly [Screen, string])[] = [
  ['place', 'Place'],
  ['measure', 'Measure'],
  ['learn', 'Learn'],
];

interface Props {
  screen: Screen;
  onScreen: (screen: Screen) => void;
}

/** Leads a phone from screen to screen, at its bottom edge. */
export function Screens({ screen, onScreen }: Props) {
  return (
    <nav class="screens" aria-label="Screens">
      {SCREENS.map(([name, words]) => (
        <button
          key={name}
          type="button"
          aria-pressed={name === screen}
          onClick={() => {
            onScreen(name);
            scrollTo(0, 0);
          }}
        >
          {words}
        </button>
      ))}
    </nav>
  );
}
