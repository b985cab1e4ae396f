/** A wheel with its tyre from the mounting face, seen from behind; all m. */
export interface WheelFit {
  /** Section width at rest; the narrowing of a grown slick is not credited. */
  sectionWidth: number;
  /** Rim width between the beads. */
  rimWidth: number;
  /** Mounting face to the inner edge of the rim. */
  backspacing: number;
  /** Thickness of one rim flange beyond the bead. */
  flange: number;
}

/** The room beside a wheel, from its mounting face; all m. */
export interface SideSpace {
  /** Inward to the inner panel or frame rail, whichever is nearer. */
  innerPanel: number;
  /** Outward to the body side. */
  bodySide: number;
  /** Axle movement to one side. */
  sidePlay: number;
  /** Gap that must remain on each side. */
  sideReserve: number;
}

export interface SideRoom {
  /** Gap inward and outward with the axle at the end of its play, m. */
  innerGap: number;
  outerGap: number;
  /** Inside width of a tub that gives the tyre its play and reserve on both sides, m. */
  widthNeeded: number;
}

/**
 * Side room of a tyre. Its section stands centred on the rim: the rim's middle lies backspacing − (width/2 + flange)
 * inward of the mounting face. Source: plain geometry; backspacing to the rim's outer edge is common practice.
 */
export function sideRoom(wheel: WheelFit, space: SideSpace): SideRoom {
  const middleInward = wheel.backspacing - (0.5 * wheel.rimWidth + wheel.flange);
  const half = 0.5 * wheel.sectionWidth;
  return {
    innerGap: space.innerPanel - (middleInward + half + space.sidePlay),
    outerGap: space.bodySide - (half - middleInward + space.sidePlay),
    widthNeeded: wheel.sectionWidth + 2 * (space.sidePlay + space.sideReserve),
  };
}
