import type { DemoAccounts } from '#server/services/people/demo-accounts.ts';

/** People of the invented operator. The demo serves this machine only: their passwords keep nobody out. */
export const DEMO_ACCOUNTS: DemoAccounts = [
  {
    name: 'Perrin Aldous',
    email: 'planner@varrowdale.example',
    role: 'planner',
    password: 'demo of the planner',
  },
  { name: 'Sable Thornby', email: 'shop@varrowdale.example', role: 'shop', password: 'demo of the shop' },
  {
    name: 'Anke Lorrimer',
    email: 'analyst@varrowdale.example',
    role: 'analyst',
    password: 'demo of the analyst',
  },
  {
    name: 'Edda Marlow',
    email: 'admin@varrowdale.example',
    role: 'admin',
    password: 'demo of the admin',
  },
];
