import type { InitializeHook, ResolveHook } from 'node:module';

/** Part of the engine to the modules that stand in for its own: path in `server/engine` to name in `left-out/`. */
export const parts: Record<string, Record<string, string>>;
export const initialize: InitializeHook<string>;
export const resolve: ResolveHook;
