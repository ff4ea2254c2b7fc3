/** Catches what cannot be drawn: something else stands in its place, and no empty page. */
import { Component, type ComponentChildren, type ComponentType } from 'preact';

interface Caught {
  failed: boolean;
  Instead?: ComponentType;
}

export class Safety extends Component<{ children: ComponentChildren }, Caught> {
  override state: Caught = { failed: false };

  override componentDidCatch(error: unknown): void {
    console.error(error);
    this.setState({ failed: true });
    void import('./parts').then(({ Undrawn }) => this.setState({ Instead: Undrawn }));
  }

  override render({ children }: { children: ComponentChildren }, { failed, Instead }: Caught) {
    return failed ? Instead && <Instead /> : children;
  }
}
