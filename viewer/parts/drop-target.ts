/** Files may be dropped anywhere on the element. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';

export class DropTarget implements ReactiveController {
  /** Whether files are held over it. */
  isOver = false;

  constructor(
    private readonly host: ReactiveControllerHost & HTMLElement,
    private readonly drop: (files: readonly File[]) => void,
  ) {
    host.addController(this);
  }

  hostConnected(): void {
    this.host.addEventListener('dragover', this.over);
    this.host.addEventListener('dragleave', this.leave);
    this.host.addEventListener('drop', this.take);
  }

  hostDisconnected(): void {
    this.host.removeEventListener('dragover', this.over);
    this.host.removeEventListener('dragleave', this.leave);
    this.host.removeEventListener('drop', this.take);
  }

  private readonly over = (event: DragEvent): void => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault(); // else the browser opens them itself
    event.dataTransfer.dropEffect = 'copy';
    this.set(true);
  };

  /** Also fired between the elements inside. */
  private readonly leave = ({ relatedTarget }: DragEvent): void => {
    if (!(relatedTarget instanceof Node) || !this.host.contains(relatedTarget)) this.set(false);
  };

  private readonly take = (event: DragEvent): void => {
    this.set(false);
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    this.drop(files);
  };

  private set(isOver: boolean): void {
    if (isOver === this.isOver) return;
    this.isOver = isOver;
    this.host.requestUpdate();
  }
}
