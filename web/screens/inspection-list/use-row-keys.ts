import { useNavigate } from '@tanstack/react-router';
import type { Virtualizer } from '@tanstack/react-virtual';
import { type RefObject, useMemo, useRef } from 'react';
import type { RankingRow } from '#server/contract/ranking.ts';
import { useHotkey } from '#web/ui/use-hotkey.ts';
import type { Choose } from './shown-rows.ts';

interface Options {
  frame: RefObject<HTMLElement | null>;
  rows: readonly RankingRow[];
  virtualizer: Virtualizer<Window, Element>;
  onChoose: Choose | null;
}

const framesToWait = 20;

/** j and k, or the arrows within the list, move the focus from row to row; o opens, c chooses, with Shift up to here. */
export function useRowKeys({ frame, rows, virtualizer, onChoose }: Options): void {
  const navigate = useNavigate();
  const last = useRef(-1);
  const actions = useMemo(() => {
    const focused = (): number => {
      const holder = document.activeElement?.closest('[data-index]');
      const index = frame.current?.contains(holder ?? null)
        ? Number(holder?.getAttribute('data-index'))
        : last.current;
      return Math.min(index, rows.length - 1);
    };
    const focusRow = (index: number, frames = framesToWait) => {
      const button = frame.current?.querySelector<HTMLElement>(`[data-index="${index}"] [data-row-button]`);
      if (button != null) button.focus({ preventScroll: true });
      else if (frames > 0) requestAnimationFrame(() => focusRow(index, frames - 1));
    };
    const move = (by: number) => {
      const index = Math.max(0, Math.min(focused() + by, rows.length - 1));
      last.current = index;
      virtualizer.scrollToIndex(index, { align: 'auto' });
      focusRow(index);
    };
    const inList = () => frame.current?.contains(document.activeElement) === true;
    const withFocused = (act: (vehicle: string) => void) => () => {
      const vehicle = rows[focused()]?.vehicle;
      if (vehicle !== undefined) act(vehicle);
    };
    return {
      j: () => move(1),
      k: () => move(-1),
      arrowdown: () => (inList() ? move(1) : false),
      arrowup: () => (inList() ? move(-1) : false),
      o: withFocused((vehicle) => void navigate({ to: '/vehicles/$vehicle', params: { vehicle } })),
      c: (event: KeyboardEvent) => {
        const index = focused();
        if (onChoose === null || index < 0) return false;
        onChoose(index, event.shiftKey);
        return true;
      },
    };
  }, [frame, rows, virtualizer, onChoose, navigate]);
  useHotkey(actions);
}
