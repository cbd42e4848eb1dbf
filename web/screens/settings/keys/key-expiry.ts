export const expiryOptions = [
  { value: '90', label: '90 days from now' },
  { value: '365', label: 'a year from now' },
  { value: 'date', label: 'a day that I choose' },
  { value: 'never', label: 'it is revoked' },
] as const;
export type ExpiryChoice = (typeof expiryOptions)[number]['value'];

const dayMs = 864e5;

/** When the key stops to work, for the server; a day counts to its end, where the admin sits. */
export function readExpiry(choice: ExpiryChoice, day: string, now: Date): string | null {
  switch (choice) {
    case 'never':
      return null;
    case 'date':
      return new Date(`${day}T23:59:59`).toISOString();
    default:
      return new Date(now.getTime() + Number(choice) * dayMs).toISOString();
  }
}
