import type { Brought } from './brought-settings.ts';

/** Values that are told one by one at the risk; all stand in the list. */
const MOST = 8;

const broughtText = ({ label, value, before }: Brought): string => `${label}: ${value} (the case: ${before})`;

/** At the risk: what it is counted with that no control shows. */
export function HiddenSettings({ brought }: { brought: readonly Brought[] }) {
  const hidden = brought.filter(({ shown }) => !shown);
  if (hidden.length === 0) return null;
  return (
    <div class="fault hidden-settings" role="alert">
      <b>Counted with values that no field below shows.</b> Not as in the case that this page was made with:
      <ul>
        {hidden.slice(0, MOST).map((one) => (
          <li key={one.path}>{broughtText(one)}</li>
        ))}
        {hidden.length > MOST && <li>and {hidden.length - MOST} more, listed below</li>}
      </ul>
    </div>
  );
}

/** All that is set otherwise than in the case that the page was made with. */
export function BroughtList({ brought }: { brought: readonly Brought[] }) {
  if (brought.length === 0) return null;
  return (
    <div class="brought">
      <h3>Set otherwise than in the case that this page was made with</h3>
      <ul>
        {brought.map((one) => (
          <li key={one.path}>{broughtText(one)}</li>
        ))}
      </ul>
    </div>
  );
}
