/** When a part of the page breaks, the rest stays usable and says what to do. */
import { Component, type ReactNode } from 'react';

/** What browsers say when a part of the program that is loaded late does not come. */
const NOT_FETCHED = /preload CSS|dynamically imported module|importing a module script|module script failed/i;

export class ErrorBoundary extends Component<
  { readonly children: ReactNode },
  { readonly broke: string | null }
> {
  override state: { readonly broke: string | null } = { broke: null };

  static getDerivedStateFromError(error: unknown): { readonly broke: string } {
    return { broke: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    if (this.state.broke === null) return this.props.children;
    // A page that could not be fetched is not fetched again by drawing it again: only loading all of it does that.
    if (NOT_FETCHED.test(this.state.broke))
      return (
        <section className="card failure" role="alert">
          <h1>This page could not be fetched</h1>
          <p>
            The server does not answer: see whether the program still runs. The line itself is not touched by
            it, and the pages that were open before still are.
          </p>
          <button type="button" className="button primary" onClick={() => location.reload()}>
            Load it again
          </button>
        </section>
      );
    return (
      <section className="card failure" role="alert">
        <h1>This part of the page broke</h1>
        <p>
          The line itself is not touched by it. Load the page again; if it happens again, write down what
          follows.
        </p>
        <p className="soft">{this.state.broke}</p>
        <button type="button" className="button primary" onClick={() => this.setState({ broke: null })}>
          Try again
        </button>
      </section>
    );
  }
}
