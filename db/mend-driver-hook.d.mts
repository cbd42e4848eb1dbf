export function mendDriver(source: string): string;
