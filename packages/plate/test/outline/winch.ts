/**
 * A base with three lobes and hollow waists, touched on a milling table: made up, its rim worked out from known
 * circles.
 */
export const winch = `job: winch base
units: mm
instruments: { finder: ± 0.03 }
faces:
  base:
    centre: bore
    features:
      bore: { kind: bore, diameter: 60.04 }
      L1: { kind: hole, thread: M8, clock: 1 }
      L2: { kind: hole, thread: M8, clock: 5 }
      L3: { kind: hole, thread: M8, clock: 8 }
    readings:
      - at L1 = (102.94, 241.19) by finder
      - at L2 = (111.49, 107.32) by finder
      - at L3 = (17.07, 136.44) by finder
      - at bore = (75.85, 174.48) by finder
    rim:
      - arc (98.21, 255.94) (108.82, 255.54) (116.66, 248.41)
      - arc (134.18, 205.36) (141.79, 172.04) (131.78, 139.36)
      - arc (125.83, 101.49) (118.74, 93.61) (108.24, 92.16)
      - arc (75.75, 108.44) (59.79, 110.43) (44.78, 116.26)
      - arc (12.53, 121.60) (4.09, 128.03) (1.73, 138.33)
      - arc (9.92, 171.09) (19.93, 209.51) (61.09, 238.78)
  motor:
    centre: spigot
    features:
      spigot: { kind: spigot, diameter: 82.55, stands: 6 }
      V1: { kind: hole, diameter: 11, clock: 3 }
      V2: { kind: hole, diameter: 11, clock: 9 }
    readings:
      - at spigot = (0, 0) by finder
      - at V1 = (53.2, 0) by finder
      - at V2 = (-53.2, 0) by finder
plate:
  between: [base, motor]
  material: steel
  thickness: 16
  clocking: 15 deg
  locate: { base: { register: 59.98, depth: 3 }, motor: { register: 82.6 } }
  fasten: { base: { as: clearance, thread: M8, cap screw: counterbored }, motor: { as: tapped, thread: M10 } }
  outline: { like: base, margin: 3 mm }
`;
