/** Set, R₀ m, V₀ m/s, q_re0, q_V1 of the Magic Formula's radius under speed, R_Ω = R₀ (q_re0 + q_V1 (V/V₀)²). */
export const radialSets = [
  ['A', 0.3135, 16.7, 0.9974, 7.742e-4],
  ['B', 0.3135, 16.7, 0.9974, 7.724e-4],
] as const;

/** Set, speed m/s, R_Ω m at V = Ω R₀; growth over the radius at rest, 1. */
export const radialGrowths = [
  ['A', 25, 0.313228823455, undefined],
  ['A', 50, 0.314860593822, 0.00695810325966],
  ['A', 100, 0.321387675288, 0.02783241303865],
  ['B', 25, 0.313227558844, undefined],
  ['B', 50, 0.314855535376, 0.0069419258044],
  ['B', 100, 0.321367441504, 0.02776770321762],
] as const;
