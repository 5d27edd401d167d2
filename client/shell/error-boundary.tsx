/** When a part of the page breaks, the rest stays usable and says what to do. */
import { Component, type ReactNode } from 'react';

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
    return (
      <section className="card failure" role="alert">
        <h2>This part of the page broke</h2>
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
