import { Component, type ReactNode } from 'react';

/** Without the drawing part, the words and numbers of a screen must still stand. */
export class DrawingBoundary extends Component<{ children: ReactNode }, { hasFailed: boolean }> {
  override state = { hasFailed: false };

  static getDerivedStateFromError() {
    return { hasFailed: true };
  }

  override render() {
    if (!this.state.hasFailed) return this.props.children;
    return (
      <p role="alert">
        The picture could not be drawn. Its numbers are all here; reload the page to try the picture again.
      </p>
    );
  }
}
