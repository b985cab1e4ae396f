/** Sizes of a tub's sheet, m and m². */
export interface TubPanel {
  /** Flat length of arc and legs along the middle of the skin. */
  developedLength: number;
  /** Arc and legs, one skin. */
  sheetArea: number;
  /** One flat end: the arc's segment and the rectangle between the legs. */
  endArea: number;
}

/**
 * Developed size of a tub. Source: plane geometry (segment and annulus), derived; a circle's flat length is taken
 * along the middle of the skin.
 * @param diameter  inside, bare skin, m
 * @param extent  of the arc, rad, 0 to π
 * @param legLength  of each leg, m
 * @param width  inside, m
 * @param skin  thickness, m
 */
export function tubPanel(
  diameter: number,
  extent: number,
  legLength: number,
  width: number,
  skin: number,
): TubPanel {
  const radius = 0.5 * diameter;
  const developedLength = (radius + 0.5 * skin) * extent + 2 * legLength;
  const half = 0.5 * extent;
  const top = 2 * radius * Math.sin(half);
  const segment = 0.5 * radius * radius * (extent - Math.sin(extent));
  const bottom = top + 2 * legLength * Math.cos(half);
  return {
    developedLength,
    sheetArea: developedLength * width,
    endArea: segment + 0.5 * (top + bottom) * legLength * Math.sin(half),
  };
}

/** Mass of a panel, kg, from its area in m² and the laminate's areal density in kg/m². */
export const panelMass = (area: number, arealDensity: number): number => area * arealDensity;
