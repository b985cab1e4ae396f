import { GAP_ANGLES } from '@tubgap/simulation';
import type { Standing } from './shown.ts';
import { fineText, lengthText, type Units } from './words.ts';

interface Props {
  standing: Standing;
  tyre: string;
  /** Pa */
  pressure: number;
  units: Units;
}

const headings = (degrees: number): string =>
  degrees === 0 ? 'straight up' : `${Math.abs(degrees)}° ${degrees > 0 ? 'ahead' : 'behind'}`;

/** The gaps that feeler and tape must find, angle by angle. */
export function GapsTable({ standing, tyre, pressure, units }: Props) {
  const at =
    units === 'inch'
      ? `${(pressure / 6894.757293168361).toFixed(1)} psi`
      : `${(pressure / 1000).toFixed(0)} kPa`;
  return (
    <table class="gaps">
      <caption>
        From {tyre} at {at} straight to the tub, loaded as the case says, everything at its middle value
      </caption>
      <thead>
        <tr>
          <th scope="col">from the hub</th>
          <th scope="col">gap</th>
          <th scope="col">exactly</th>
        </tr>
      </thead>
      <tbody>
        {GAP_ANGLES.map((degrees, i) => (
          <tr key={degrees}>
            <th scope="row">{headings(degrees)}</th>
            <td>{lengthText(standing.gaps[i]!, units)}</td>
            <td>{fineText(standing.gaps[i]!, units)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
