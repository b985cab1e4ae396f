import type { ClearanceState } from '@tubgap/core';

export type Unit = 'm' | 'm/s' | 'm/s²' | 'N' | 'Pa' | 'kg/m³' | 'kg/m' | 'rad' | 'N/m²' | '1' | 'v_c or q';

interface Line {
  key: keyof ClearanceState;
  symbol: string;
  name: string;
  unit: Unit;
  how: string;
}

/** Every intermediate value of a state, in the order in which it is worked out, each with the formula it comes from. */
export const STATE_STEPS: readonly { title: string; lines: readonly Line[] }[] = [
  {
    title: 'Air of the day',
    lines: [
      {
        key: 'airDensity',
        symbol: 'ρ',
        name: 'air density',
        unit: 'kg/m³',
        how: 'CIPM-2007 from temperature, station pressure, humidity',
      },
      {
        key: 'densityAltitude',
        symbol: 'DA',
        name: 'density altitude',
        unit: 'm',
        how: 'US Standard Atmosphere 1976',
      },
    ],
  },
  {
    title: '1, 2  Air in the tyre and free radius',
    lines: [
      { key: 'coldPressure', symbol: 'p_cold', name: 'pressure as set', unit: 'Pa', how: 'gauge' },
      {
        key: 'pressure',
        symbol: 'p',
        name: 'hot pressure',
        unit: 'Pa',
        how: '(p_cold + p_atm) T_hot/(T_cold V_hot/V_cold) − p_atm',
      },
      {
        key: 'coldFreeRadius',
        symbol: 'R₀(p_cold)',
        name: 'free radius as set',
        unit: 'm',
        how: 'R₀(p_ref) + (dR/dp)(p_cold − p_ref)',
      },
      {
        key: 'freeRadius',
        symbol: 'R₀(p)',
        name: 'free radius, hot',
        unit: 'm',
        how: 'R₀(p_ref) + (dR/dp)(p − p_ref)',
      },
    ],
  },
  {
    title: '3  Growth',
    lines: [
      {
        key: 'carSpeed',
        symbol: 'v',
        name: 'car speed',
        unit: 'm/s',
        how: 'point mass through launch acceleration and trap speed',
      },
      { key: 'treadSpeed', symbol: 'v_t', name: 'tread speed', unit: 'm/s', how: 'v (1 + κ)' },
      { key: 'bandMass', symbol: 'μ', name: 'band mass per length', unit: 'kg/m', how: '0.57 m_tyre/(2πR₀)' },
      {
        key: 'growthParameter',
        symbol: 'v_c | q',
        name: 'growth parameter',
        unit: 'v_c or q',
        how: 'slick 0.77 √((p + p₀) b R₀/μ) · factor, m/s; radial q_ref (p_ref + p₀)/(p + p₀)',
      },
      {
        key: 'growth',
        symbol: 'g',
        name: 'growth',
        unit: 'm',
        how: 'slick A ln(1 + (v_t/v_c)²); radial q R₀ (v_t/50)²',
      },
      { key: 'grownRadius', symbol: 'R', name: 'grown radius', unit: 'm', how: 'R₀(p) + g' },
    ],
  },
  {
    title: '4  Forces on the car',
    lines: [
      {
        key: 'acceleration',
        symbol: 'a',
        name: 'net acceleration',
        unit: 'm/s²',
        how: '(F_x − D − P − rolling)/m',
      },
      { key: 'drag', symbol: 'D', name: 'drag', unit: 'N', how: '½ρv² C_dA' },
      { key: 'downforce', symbol: 'D_r', name: 'rear downforce', unit: 'N', how: '½ρv² C_zA_r' },
      {
        key: 'transfer',
        symbol: 'ΔF_z',
        name: 'load moved to the rear axle',
        unit: 'N',
        how: '(F_x h + D(h_D − h) + P(h_p − h))/L, at most the front weight',
      },
      {
        key: 'tyreThrust',
        symbol: 'F_x/2',
        name: 'thrust, one tyre',
        unit: 'N',
        how: 'half of m a + D + rolling',
      },
      { key: 'tyreLoad', symbol: 'F_z', name: 'load, one tyre', unit: 'N', how: '(W_r + D_r + ΔF_z)/2' },
    ],
  },
  {
    title: '5  Body drop and axle path',
    lines: [
      {
        key: 'springForce',
        symbol: 'F',
        name: 'spring force above rest',
        unit: 'N',
        how: '(D_r + ΔF_z − AS F_x h/L)/2, overshoot, roll and added mass in',
      },
      {
        key: 'bodyDrop',
        symbol: 'u',
        name: 'body drop',
        unit: 'm',
        how: 'F/k to the stop, then s_f + (F − k s_f)/(k + k_s)',
      },
      { key: 'bump', symbol: 'u_b', name: 'bump', unit: 'm', how: 'allowance' },
      {
        key: 'forward',
        symbol: 's_x',
        name: 'axle forward',
        unit: 'm',
        how: 'slope (u + u_b) + give · thrust share',
      },
    ],
  },
  {
    title: '6  Band',
    lines: [
      {
        key: 'halfPatch',
        symbol: 'α',
        name: 'patch half-angle',
        unit: 'rad',
        how: 'min(0.6, F_z/(2(p + p₀) b_t R))',
      },
      { key: 'airTension', symbol: 'τ', name: 'air tension over radius', unit: 'N/m²', how: '0.8 p b/R' },
      {
        key: 'radialStiffness',
        symbol: 'k_w',
        name: 'radial stiffness',
        unit: 'N/m²',
        how: 'from the measured axle drop under load',
      },
      {
        key: 'tangentialStiffness',
        symbol: 'k_v',
        name: 'tangential stiffness',
        unit: 'N/m²',
        how: 'ratio · k_w',
      },
      {
        key: 'criticalSpeedCareful',
        symbol: 'v_crit',
        name: 'standing waves, careful',
        unit: 'm/s',
        how: 'χ = 0.6, EI = 4 N·m²: a warning',
      },
      {
        key: 'criticalSpeedFromGrowth',
        symbol: 'v_crit',
        name: 'standing waves, from growth',
        unit: 'm/s',
        how: 'χ = 1 − k_w g R/(μv²), EI = 10 N·m²: a warning',
      },
    ],
  },
  {
    title: '7, 8  Outline at the tight angle',
    lines: [
      {
        key: 'tightAngle',
        symbol: 'θ*',
        name: 'tight angle',
        unit: 'rad',
        how: 'where the gap is smallest, from straight up, forward +',
      },
      {
        key: 'loadBulge',
        symbol: 'w_z',
        name: 'bulge under load',
        unit: 'm',
        how: 'closed form of the band, even part',
      },
      {
        key: 'thrustBulge',
        symbol: 'w_x',
        name: 'bulge under thrust',
        unit: 'm',
        how: 'closed form of the band, odd part',
      },
      { key: 'lobe', symbol: 'ℓ', name: 'lobe allowance', unit: 'm', how: 'raised cosine, half-width 40°' },
      { key: 'runOut', symbol: '', name: 'run-out', unit: 'm', how: 'input' },
      {
        key: 'outlineRadius',
        symbol: 'r(θ*)',
        name: 'outline',
        unit: 'm',
        how: 'R₀(p) + g + w_z + w_x + ℓ + run-out',
      },
    ],
  },
  {
    title: '9, 10, 11  Gap and required height',
    lines: [
      {
        key: 'staticLoadedRadius',
        symbol: 'a₀',
        name: 'axle above the track at rest',
        unit: 'm',
        how: 'measured, or R₀ − F_z Σ f_n²/K_n − Rα²/10 of the build tyre',
      },
      {
        key: 'centreAhead',
        symbol: 'C_x',
        name: 'tub centre ahead of the axle',
        unit: 'm',
        how: 'x_c − s_x',
      },
      {
        key: 'centreAbove',
        symbol: 'C_z',
        name: 'tub centre above the axle',
        unit: 'm',
        how: 'H − T − a₀ − u',
      },
      { key: 'gap', symbol: 'gap', name: 'smallest gap', unit: 'm', how: 'T − |P − C|, or to a leg' },
      { key: 'margin', symbol: '', name: 'gap less reserve', unit: 'm', how: 'touches when below 0' },
      {
        key: 'staticSmallest',
        symbol: '',
        name: 'smallest static gap',
        unit: 'm',
        how: 'standing still, as built',
      },
      {
        key: 'closing',
        symbol: '',
        name: 'closing',
        unit: 'm',
        how: 'smallest static gap less smallest gap',
      },
      {
        key: 'requiredHeight',
        symbol: 'H*',
        name: 'required top height',
        unit: 'm',
        how: 'a₀ + u + T + P_z − √((T − reserve)² − (P_x − x_c + s_x)²), the largest',
      },
      { key: 'contactHeight', symbol: '', name: 'the same for reserve 0', unit: 'm', how: '' },
    ],
  },
];
