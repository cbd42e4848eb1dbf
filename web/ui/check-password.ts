/** The bounds of the contract, which its schema checks; written out so that the browser need not load zod. */
const leastCharacters = 12;

export const passwordRule = `At least ${leastCharacters} characters. A few words that only you would put together are fine; nothing else is asked of it.`;

/** What is wrong with a new password; undefined where nothing is. */
export function checkPassword(password: string): string | undefined {
  const n = password.length;
  if (n === 0) return `Choose a password of at least ${leastCharacters} characters.`;
  if (n < leastCharacters)
    return `It has ${n} ${n === 1 ? 'character' : 'characters'}; at least ${leastCharacters} are needed.`;
  return undefined;
}
