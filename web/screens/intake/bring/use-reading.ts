import { useState } from 'react';
import type { Mapping } from '#server/contract/mappings.ts';
import { useKeptText } from '#web/ui/kept-drafts.ts';
import { type BringDraft, draftPlace, readDraft, writeDraft } from './bring-draft.ts';

interface State {
  /** changed here; null: as proposed, or as the stored one stands */
  mapping: Mapping | null;
  /** lines are cut anew: the columns are to be guessed when they are seen */
  isToGuess: boolean;
  /** a stored mapping or a draft was looked for once */
  isOffered: boolean;
  /** whose choice it is that files are read so */
  by: 'proposal' | 'fit' | 'draft' | 'choice';
}

const start: State = { mapping: null, isToGuess: false, isOffered: false, by: 'proposal' };

/** How files are read: what was chosen or changed, kept on this device until it is on the server. */
export function useReading(base: string | null, onBase: (name: string | null) => void) {
  const [state, setState] = useState<State>(start);
  const { kept, keep, forget } = useKeptText(draftPlace);
  const settle = (mapping: Mapping | null, by: State['by']) =>
    setState({ mapping, isToGuess: false, isOffered: true, by });
  return {
    ...state,
    base,
    draft: readDraft(kept),
    change(mapping: Mapping, isCut = false) {
      setState((before) => ({ ...before, mapping, isToGuess: isCut, isOffered: true, by: 'choice' }));
      keep(writeDraft({ mapping, base }));
    },
    guessed(mapping: Mapping) {
      setState((before) => ({ ...before, mapping, isToGuess: false }));
      keep(writeDraft({ mapping, base }));
    },
    takeStored(name: string, by: 'fit' | 'choice') {
      settle(null, by);
      if (by === 'choice') forget();
      onBase(name);
    },
    takeDraft({ mapping, base: of }: BringDraft) {
      settle(mapping, 'draft');
      onBase(of);
    },
    /** nothing fits: it stays as proposed */
    offerNone: () => setState((before) => ({ ...before, isOffered: true })),
    startAnew() {
      settle(null, 'proposal');
      forget();
      onBase(null);
    },
    saved(name: string) {
      settle(null, 'choice');
      forget();
      onBase(name);
    },
    /** other files: what fits them is looked for again */
    lookAgain() {
      if (state.mapping !== null || (base !== null && state.by !== 'fit')) return;
      setState(start);
      if (base !== null) onBase(null);
    },
  };
}

export type Reading = ReturnType<typeof useReading>;
