/** Loaded ahead of every test file: the driver is corrected as the program corrects it. */
import { register } from 'node:module';

register('../../db/mend-driver-hook.mjs', import.meta.url);
