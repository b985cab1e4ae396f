const quoted = (cell: string): string => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/** Lines of cells as comma-separated values, each line ended. */
export const csvLines = (lines: readonly (readonly (string | number)[])[]): string =>
  `${lines.map((line) => line.map((cell) => quoted(String(cell))).join(',')).join('\n')}\n`;
