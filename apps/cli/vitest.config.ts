import { room } from '../../vitest.shared.ts';

export default room(60_000);
