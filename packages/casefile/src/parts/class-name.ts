/**
 * Name of a tyre in a class, as every paper and table has it: the tyre's own where the class has none, so that a tyre
 * that runs in one class alone keeps its name.
 */
export const tyreInClass = (tyre: string, itsClass: string | undefined): string =>
  itsClass === undefined ? tyre : `${tyre} (${itsClass})`;
