import { Component, type ErrorInfo, type ReactNode } from "react";
import css from "./error-boundary.module.css";

interface Props {
  /** What the region is called in the sentence, e.g. "The bench". */
  readonly region: string;
  /** A change of this value tries the region anew by itself (the drive that broke it has gone). */
  readonly resetOn?: unknown;
  readonly children: ReactNode;
}

interface State {
  readonly failed: boolean;
  readonly resetOn: unknown;
}

/** Keeps what goes wrong in one region of the page within it: the rest, and the drive, go on. */
export class ErrorBoundary extends Component<Props, State> {
  override state: State = { failed: false, resetOn: this.props.resetOn };

  static getDerivedStateFromError(): Partial<State> {
    return { failed: true };
  }

  static getDerivedStateFromProps(props: Props, state: State): Partial<State> | null {
    return props.resetOn === state.resetOn ? null : { failed: false, resetOn: props.resetOn };
  }

  override componentDidCatch(_error: unknown, _info: ErrorInfo): void {
    // React has already written the error to the console, where who looks for it will find it.
  }

  override render(): ReactNode {
    if (!this.state.failed) return this.props.children;
    return (
      <div role="alert" className={css.failed}>
        <p>{this.props.region} stopped because of a fault of its own; your drive is safe and the rest goes on.</p>
        <button type="button" className={css.again} onClick={() => this.setState({ failed: false })}>
          Reload the view
        </button>
      </div>
    );
  }
}
