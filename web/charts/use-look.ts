import { useSyncExternalStore } from 'react';
import { buildLook, type Look } from './look.ts';

let kept: { key: string; look: Look } | null = null;

function readLook(): Look {
  const style = getComputedStyle(document.documentElement);
  const tokenOf = (name: string) => style.getPropertyValue(name).trim();
  const ground = style.colorScheme === 'dark' ? 'dark' : 'light';
  const key = `${ground} ${tokenOf('--paper')} ${tokenOf('--ink')}`;
  if (kept?.key !== key) kept = { key, look: buildLook(tokenOf, ground) };
  return kept.look;
}

/** The root element says which ground is shown: by the reader's choice as an attribute, else by the system. */
function watchGround(listener: () => void): () => void {
  const observer = new MutationObserver(listener);
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  const system = window.matchMedia('(prefers-color-scheme: dark)');
  system.addEventListener('change', listener);
  return () => {
    observer.disconnect();
    system.removeEventListener('change', listener);
  };
}

export const useLook = (): Look => useSyncExternalStore(watchGround, readLook);
