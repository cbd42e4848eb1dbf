import { InvalidArgumentError } from 'commander';

/** The address of a server, as an option names it. */
export function toOrigin(url: string): string {
  if (!/^https?:\/\//i.test(url) || !URL.canParse(url))
    throw new InvalidArgumentError('It must be an address such as http://127.0.0.1:4280.');
  return new URL(url).origin;
}
