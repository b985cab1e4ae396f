/**
 * Six invented callers, as a shop would take them down. None answers more than eleven fields.
 */
export const CALLERS = {
  street: {
    tyres: [{ size: 'P325/50R15', build: 'treaded radial' }],
    speed: '128 mph',
    distance: 'quarter',
    mass: '3,900 lb',
    parachutes: 'none',
  },
  'small-tyre': {
    tyres: [{ size: '28.0x10.5-15', build: 'radial slick', widthIs: 'tread', pressure: '12psi' }],
    speed: '172 mph',
    distance: 'eighth',
    mass: '3000 lb',
    sixtyFoot: '1.12',
    wing: 'none',
  },
  'winged-door': {
    tyres: [{ size: '33.5 x 17.0 – 16', build: 'bias slick', rollout: '105-7/8"', pressure: '6.0 psi' }],
    speed: '224 mph',
    distance: 'quarter',
    elapsed: '6.15 s',
    mass: '2,480 lb',
    wing: 'tall',
    axleHeight: `16 5/16”`,
  },
  'runs-both': {
    tyres: [
      { size: '33.0x16.5-15', build: 'bias slick' },
      { size: '275/60R15', build: 'treaded radial', speed: '165 mph', sixtyFoot: '1.28' },
    ],
    speed: '188 mph',
    distance: 'eighth',
    axleHeight: `1' 4"`,
  },
  open: {
    tyres: [{ size: '36.0x17.5-16', build: 'bias slick' }],
    kind: 'open',
    speed: '280 mph',
    distance: '1000 ft',
    wheelbase: '280 in',
    sixtyFoot: 0.9,
    parachutes: 'two',
  },
  'knows nothing': { tyres: [{ size: '92 1/2 in', build: 'radial slick' }], speed: '265 km/h' },
} as const;
