/** Columns of the list of tubs that a shop begins with; the last is the shop's own. */
const HEADS = [
  'tub',
  'inside_diameter_in',
  'liner_in',
  'arc_extent_deg',
  'leg_length_in',
  'inside_width_in',
  'skin_thickness_in',
  'areal_density_lb_ft2',
  'stock',
] as const;

/** A plain ladder of sizes that nobody sells. */
const LADDER: readonly (readonly [diameter: number, width: number, stock: boolean])[] = [
  [32, 13.5, true],
  [34, 15, true],
  [36, 16, true],
  [38, 17, true],
  [40, 18, true],
  [42, 19, true],
  [44, 19.5, true],
  [46, 20, false],
  [48, 20.5, false],
];

/** Tubs to begin with until the shop writes its own: cells of a catalogue. */
export const INVENTED_TUBS: { heads: readonly string[]; rows: readonly (readonly string[])[] } = {
  heads: HEADS,
  rows: LADDER.map(([diameter, width, stock]) => [
    `tub-${diameter}`,
    String(diameter),
    '0.06',
    '180',
    '7',
    String(width),
    '0.040',
    '0.56',
    stock ? 'yes' : 'no',
  ]),
};

/** What stands above such a list in a file. */
export const INVENTED_REMARK =
  '# Invented tubs: a plain ladder to begin with. Write your own in their place.\n';

/** The same as the catalogue's file. */
export const INVENTED_TUBS_TEXT = `${INVENTED_REMARK}${[INVENTED_TUBS.heads, ...INVENTED_TUBS.rows].map((cells) => cells.join(',')).join('\n')}\n`;
