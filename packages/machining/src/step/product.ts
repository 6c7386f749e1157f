import { type Instances, list, real, words } from './part21.js';

/** Distance below which a reader may take two points for one, mm. */
const SAME_POINT = 1e-6;

/** The product that the solid is the shape of, and the units that its numbers stand in. */
export const writeProduct = (out: Instances, name: string, solid: string): void => {
  const none = words('');
  const application = out.add('APPLICATION_CONTEXT', words('core data for automotive mechanical design processes'));
  out.add(
    'APPLICATION_PROTOCOL_DEFINITION',
    words('international standard'),
    words('automotive_design'),
    '2000',
    application,
  );
  const productContext = out.add('PRODUCT_CONTEXT', none, application, words('mechanical'));
  const product = out.add('PRODUCT', name, name, none, list([productContext]));
  out.add('PRODUCT_RELATED_PRODUCT_CATEGORY', words('part'), none, list([product]));
  const formation = out.add('PRODUCT_DEFINITION_FORMATION', none, none, product);
  const definitionContext = out.add(
    'PRODUCT_DEFINITION_CONTEXT',
    words('part definition'),
    application,
    words('design'),
  );
  const definition = out.add('PRODUCT_DEFINITION', words('design'), none, formation, definitionContext);
  const shape = out.add('PRODUCT_DEFINITION_SHAPE', none, none, definition);

  const millimetre = out.addComplex('LENGTH_UNIT()', 'NAMED_UNIT(*)', 'SI_UNIT(.MILLI.,.METRE.)');
  const radian = out.addComplex('NAMED_UNIT(*)', 'PLANE_ANGLE_UNIT()', 'SI_UNIT($,.RADIAN.)');
  const steradian = out.addComplex('NAMED_UNIT(*)', 'SI_UNIT($,.STERADIAN.)', 'SOLID_ANGLE_UNIT()');
  const uncertainty = out.add(
    'UNCERTAINTY_MEASURE_WITH_UNIT',
    `LENGTH_MEASURE(${real(SAME_POINT)})`,
    millimetre,
    words('distance_accuracy_value'),
    none,
  );
  const context = out.addComplex(
    'GEOMETRIC_REPRESENTATION_CONTEXT(3)',
    `GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((${uncertainty}))`,
    `GLOBAL_UNIT_ASSIGNED_CONTEXT((${millimetre},${radian},${steradian}))`,
    `REPRESENTATION_CONTEXT('','3D')`,
  );
  const zero = out.add('CARTESIAN_POINT', none, list([real(0), real(0), real(0)]));
  const z = out.add('DIRECTION', none, list([real(0), real(0), real(1)]));
  const x = out.add('DIRECTION', none, list([real(1), real(0), real(0)]));
  const frame = out.add('AXIS2_PLACEMENT_3D', none, zero, z, x);
  const representation = out.add('ADVANCED_BREP_SHAPE_REPRESENTATION', name, list([frame, solid]), context);
  out.add('SHAPE_DEFINITION_REPRESENTATION', shape, representation);
};
