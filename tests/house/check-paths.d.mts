export function pathsIn(text: string): string[];
export function findLostPaths(root: string): string[];
