import type { Session } from '#server/contract/people.ts';
import type { SignInLibrary } from './sign-in-library.ts';

/** What the calls about people need beside the context. */
export interface PeopleDesk {
  library: SignInLibrary;
  /** origin that people use; null: this machine only */
  publicUrl: string | null;
  /** what people call the company's sign-in; null where there is none */
  companyName: string | null;
  /** accounts that the demo shows to everybody */
  demo: Session['demo'];
}
