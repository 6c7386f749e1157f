export { onRoot as fayplate, root } from '../../apps/cli/test/support/pump.js';
