/** Which elements the files say are joined, by their ports. */
import type { AirElement } from '../model.js';

export class PortLinks {
  private readonly pairs = new Set<string>();
  private readonly index = new Map<AirElement, number>();

  constructor(elements: readonly AirElement[]) {
    const owner = new Map<string, number>();
    elements.forEach((element, i) => {
      this.index.set(element, i);
      for (const port of element.ports) owner.set(`${element.model}/${port.globalId}`, i);
    });
    elements.forEach((element, i) => {
      for (const port of element.ports) {
        const other = port.connectedTo === undefined ? undefined : owner.get(`${element.model}/${port.connectedTo}`);
        if (other !== undefined) this.pairs.add(`${i}-${other}`).add(`${other}-${i}`);
      }
    });
  }

  areLinked(a: AirElement, b: AirElement): boolean {
    return this.pairs.has(`${this.index.get(a)}-${this.index.get(b)}`);
  }
}
