import { readOwnPath } from './own-path.ts';

const companyReasons = {
  unknown:
    'Your company knows you, but no account here has your e-mail address. Ask an admin of Slipdrift to invite you.',
  closed: 'Your account here is closed. Ask an admin of Slipdrift.',
  failed: 'Signing in through your company did not come to an end. Try again; if it stays, ask an admin.',
} as const;
type CompanyReason = keyof typeof companyReasons;

export interface SignInSearch {
  to?: string;
  company?: CompanyReason;
}

export function parseSignInSearch(raw: Record<string, unknown>): SignInSearch {
  const to = readOwnPath(raw.to);
  return { ...(to === '/' ? {} : { to }), ...(isReason(raw.company) ? { company: raw.company } : {}) };
}

export const sayCompanyReason = (reason: CompanyReason): string => companyReasons[reason];

const isReason = (value: unknown): value is CompanyReason =>
  typeof value === 'string' && Object.hasOwn(companyReasons, value);
