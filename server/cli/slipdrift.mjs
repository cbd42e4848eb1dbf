#!/usr/bin/env node
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`slipdrift: Node 20.19 or newer is needed, and this is ${process.version}.`);
  process.exit(1);
}
const { register: registerHook } = await import('node:module');
registerHook('../../db/mend-driver-hook.mjs', import.meta.url);
const { register: registerTypescript } = await import('tsx/esm/api');
registerTypescript();
const { runProgram } = await import('./program.ts');
process.exitCode = await runProgram(process.argv);
