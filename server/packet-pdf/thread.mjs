import { register as registerTypescript } from 'tsx/esm/api';

// A thread starts without the hooks of its process.
registerTypescript();
await import('./run-in-thread.ts');
