import { csvRows, saysOutOfStock } from '@tubgap/casefile';
import { INVENTED_REMARK, INVENTED_TUBS } from '@tubgap/interview';
import { csvLines } from '../carried/csv-lines.ts';

/** The shop's own tubs: a catalogue as it stands in its file, cell by cell, whatever columns it has. */
export interface ShopTubs {
  heads: readonly string[];
  /** As many cells a row as there are heads. */
  rows: readonly (readonly string[])[];
}

/** Column that says whether a tub stands in the shop. */
export const STOCK = 'stock';
const NAME = 'tub';
/** More rows than any shop has; a page must stay quick. */
const MOST_ROWS = 60;

/** What a field of the list is called on the page, by the head of its column without the unit. */
const LABELS: Readonly<Record<string, string>> = {
  tub: 'Name',
  inside_diameter: 'Inside',
  liner: 'Liner',
  arc_extent: 'Arc',
  leg_length: 'Legs',
  inside_width: 'Width',
  skin_thickness: 'Skin',
  areal_density: 'Weight',
  stock: 'In stock',
};

const columnOf = ({ heads }: ShopTubs, head: string): number => heads.indexOf(head);

export const isInvented = (tubs: ShopTubs): boolean => JSON.stringify(tubs) === JSON.stringify(INVENTED_TUBS);

/** The list as the catalogue's file. */
export const tubsText = (tubs: ShopTubs): string =>
  (isInvented(tubs) ? INVENTED_REMARK : '') + csvLines([tubs.heads, ...tubs.rows]);

/** A catalogue's file as a list; undefined where it is none. Rows are filled up to as many cells as there are heads. */
export function readTubs(text: string): ShopTubs | undefined {
  let broken = false;
  const rows = [
    ...csvRows(text, () => {
      broken = true;
    }),
  ].map((cells) => cells.map((cell) => cell.text));
  const [heads, ...rest] = rows;
  if (broken || heads === undefined || heads[0] !== NAME || rest.length === 0) return undefined;
  const whole = heads.includes(STOCK) ? heads : [...heads, STOCK];
  return {
    heads: whole,
    rows: rest
      .slice(0, MOST_ROWS)
      .map((cells) => whole.map((head, c) => cells[c] ?? (head === STOCK ? 'yes' : ''))),
  };
}

/** Whether a row's tub stands in the shop. */
export const inStock = (tubs: ShopTubs, row: readonly string[]): boolean =>
  !saysOutOfStock(row[columnOf(tubs, STOCK)] ?? '');

/** A column that the page shows: its label, and its unit as a head writes it. */
export interface ShownColumn {
  index: number;
  label: string;
  unit: string;
}

/** The columns whose meaning the page knows; all others stay in the file as they are. */
export const shownColumns = ({ heads }: ShopTubs): ShownColumn[] =>
  heads.flatMap((head, index): ShownColumn[] => {
    const name = Object.keys(LABELS).find((one) => head === one || head.startsWith(`${one}_`));
    return name === undefined
      ? []
      : [{ index, label: LABELS[name]!, unit: head.slice(name.length + 1).replace('lb_ft2', 'lb/ft²') }];
  });

export const withCell = (tubs: ShopTubs, row: number, column: number, text: string): ShopTubs => ({
  ...tubs,
  rows: tubs.rows.map((cells, r) =>
    r === row ? cells.map((cell, c) => (c === column ? text.replaceAll(/[\n,"]/g, ' ') : cell)) : cells,
  ),
});

/** The list with one more tub, the last once more under another name, or without one. */
export function withRow(tubs: ShopTubs): ShopTubs {
  if (tubs.rows.length >= MOST_ROWS) return tubs;
  const last = tubs.rows.at(-1) ?? tubs.heads.map(() => '');
  const names = new Set(tubs.rows.map(([name]) => name));
  let count = tubs.rows.length + 1;
  while (names.has(`tub-no-${count}`)) count++;
  return { ...tubs, rows: [...tubs.rows, last.map((cell, c) => (c === 0 ? `tub-no-${count}` : cell))] };
}

export const withoutRow = (tubs: ShopTubs, row: number): ShopTubs => ({
  ...tubs,
  rows: tubs.rows.filter((_, r) => r !== row),
});
