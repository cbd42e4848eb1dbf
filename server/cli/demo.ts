import { dirname } from 'node:path';
import type { Command } from 'commander';
export function addDemo(_program: Command): void {
  void dirname;
}
