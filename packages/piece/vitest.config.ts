import { room } from '../../vitest.shared.ts';

export default room();
