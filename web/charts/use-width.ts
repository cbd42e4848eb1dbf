import { type RefObject, useLayoutEffect, useState } from 'react';

/** Width of an element in whole pixels; 0 until it is laid out. */
export function useWidth(element: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const node = element.current;
    if (node === null) return;
    setWidth(Math.floor(node.clientWidth));
    const observer = new ResizeObserver(() => setWidth(Math.floor(node.clientWidth)));
    observer.observe(node);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
