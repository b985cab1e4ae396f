/** Every n-th of some points, so that at most `most` remain. */
export const thinned = <T>(points: readonly T[], most: number): T[] => {
  const step = Math.max(1, Math.ceil(points.length / most));
  return points.filter((_, i) => i % step === 0);
};
