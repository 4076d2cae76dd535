// The same on a wide screen.

import { look } from './looks.mjs';

export async function scenario(t) { return look(t, [[1280, 'light'], [1280, 'dark']]); }
