import { register as registerHook } from 'node:module';
import { register as registerTypescript } from 'tsx/esm/api';

// A thread starts without the hooks of its process.
registerHook('../../db/mend-driver-hook.mjs', import.meta.url);
registerTypescript();
await import('./run-in-thread.ts');
