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
      {
        key: 'referencePressure',
        symbol: 'p_ref',
        name: 'pressure of the taped radius',
        unit: 'Pa',
        how: 'gauge',
      },
      { key: 'coldPressure', symbol: 'p_cold', name: 'pressure as set', unit: 'Pa', how: 'gauge' },
      {
        key: 'pressure',
        symbol: 'p',
        name: 'hot pressure',
        unit: 'Pa',
        how: '(p_cold + p_atm) T_hot/(T_cold V_hot/V_cold) − p_atm, absolute T; p_cold in the burnout',
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
        how: 'launch: 3 m at a₁; finish on: trap speed; between: a₁, then constant power against drag',
      },
      { key: 'treadSpeed', symbol: 'v_t', name: 'tread speed', unit: 'm/s', how: 'v (1 + κ)' },
      {
        key: 'bandMass',
        symbol: 'μ',
        name: 'band mass per length',
        unit: 'kg/m',
        how: '0.57 m_tyre/(2πR₀(p))',
      },
      {
        key: 'growthParameter',
        symbol: 'v_c | q',
        name: 'growth parameter',
        unit: 'v_c or q',
        how: 'slick 0.77 √((p + p₀) b R₀(p)/μ) · factor, m/s; radial scale · (p_r + p₀)/(p + p₀), p_r = 32 psi',
      },
      {
        key: 'growth',
        symbol: 'g',
        name: 'growth',
        unit: 'm',
        how: 'slick scale · R₀(p_ref) ln(1 + (v_t/v_c)²); radial q R₀(p) (v_t/50 m/s)²',
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
        how: '(F_x − D − P − f m g)/m, P = parachute pull over mass · m',
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
        how: 'half of m a + D + f m g; burnout: half of share · W_r; none once lifted',
      },
      {
        key: 'tyreLoad',
        symbol: 'F_z',
        name: 'load, one tyre',
        unit: 'N',
        how: '(W_r + D_r + ΔF_z)/2, W_r = share · m g',
      },
    ],
  },
  {
    title: '5  Body drop and axle path',
    lines: [
      {
        key: 'thrustShare',
        symbol: 'F_x/F_1',
        name: 'thrust over that of the launch',
        unit: '1',
        how: 'F_1 = m a₁ + D(launch) + f m g',
      },
      {
        key: 'steadySpringForce',
        symbol: 'F_s',
        name: 'spring force, steady',
        unit: 'N',
        how: '(D_r + ΔF_z − AS F_x h/L)/2; 0 in the burnout',
      },
      {
        key: 'springForce',
        symbol: 'F',
        name: 'spring force above rest',
        unit: 'N',
        how: 'F_s + (o − 1)(F_s − F_before) + k · roll · F_x/F_1 + added mass · g/2; F_before, else no overshoot: gear change F_s without thrust, lift F_s of the finish, parachute F_s of the lift',
      },
      {
        key: 'bodyDrop',
        symbol: 'u',
        name: 'body drop',
        unit: 'm',
        how: 'F/k to s = s_f + c, then s + (F − k s)/(k + k_s), not below c − droop; less c, the body raised for this tyre',
      },
      { key: 'bump', symbol: 'u_b', name: 'bump', unit: 'm', how: 'allowance; 0 in the burnout' },
      {
        key: 'forward',
        symbol: 's_x',
        name: 'axle forward',
        unit: 'm',
        how: 'slope (u + u_b) + give · F_x/F_1',
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
        how: 'factor · the k_w at which R − axle height, as for a₀, is the measured deflection',
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
        how: 'least over n ≥ 2 of R √([EI/R⁴ (n² − 1) + τ + (k_w + k_v/n²)/(n² − 1)]/(μ(1 − χ))), χ = 0.6, EI = 4 N·m²: a warning',
      },
      {
        key: 'criticalSpeedFromGrowth',
        symbol: 'v_crit',
        name: 'standing waves, from growth',
        unit: 'm/s',
        how: 'the same with χ = 1 − k_w g R/(μ v_t²), 0 to 0.95, EI = 10 N·m²: a warning',
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
        how: '−Σ (F_z f_n/K_n) cos nφ, φ = θ − π, K_n = πR[τ(n² − 1) + k_w + k_v/n²], f_n = 3(sin nα − nα cos nα)/(nα)³',
      },
      {
        key: 'thrustBulge',
        symbol: 'w_x',
        name: 'bulge under thrust',
        unit: 'm',
        how: '−Σ (F_x f_n/(n K_n)) sin nφ, F_x of one tyre',
      },
      {
        key: 'lobe',
        symbol: 'ℓ',
        name: 'lobe allowance',
        unit: 'm',
        how: 'h_l (1 + cos(180° (θ − θ_l)/40°))/2, 0 beyond 40° from θ_l',
      },
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
        how: 'measured, or R₀ − F_z Σ f_n²/K_n − R₀ α²/10 of the build tyre, standing',
      },
      { key: 'tubRadius', symbol: 'T', name: 'tub radius', unit: 'm', how: 'inside, less the liner' },
      {
        key: 'centreAtRest',
        symbol: 'x_c',
        name: 'tub centre ahead, at rest',
        unit: 'm',
        how: 'as set out, misplacement added',
      },
      { key: 'reserve', symbol: '', name: 'reserve', unit: 'm', how: 'as the case says' },
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
        how: 'H + e_H − a₀ − T − (u + u_b), e_H: top above where it was meant to be',
      },
      {
        key: 'gap',
        symbol: 'gap',
        name: 'smallest gap',
        unit: 'm',
        how: 'T − |P − C|, P = r(θ)(sin θ, cos θ); or to a leg',
      },
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
        how: 'a₀ − e_H + u + u_b + T + P_z − √((T − reserve)² − (P_x − C_x)²) at θ_H; H at which a leg is cleared when that is more',
      },
      {
        key: 'requiredAngle',
        symbol: 'θ_H',
        name: 'where that is needed',
        unit: 'rad',
        how: 'the angle at which H* is largest',
      },
      { key: 'contactHeight', symbol: '', name: 'the same for reserve 0', unit: 'm', how: '' },
    ],
  },
];
