/** What can only be found by going through the whole file; see `Source`, which does so once at the most. */
import type { StepFile } from './step-file.js';
import { label, refs, text } from './value.js';

/** The first rating that is not blank counts. IFC2X3 hangs properties on the set by another name. */
export function readMaterialRatings(file: StepFile): Map<number, string> {
  const ratings = new Map<number, string>();
  for (const id of file.ids('IFCMATERIALPROPERTIES', true)) {
    const set = file.line(id);
    const properties = [...refs(set?.Properties), ...refs(set?.ExtendedProperties)].map((p) => file.line(p));
    const rating = properties
      .filter((p) => text(p?.Name) === 'FireRating')
      .map((p) => label(p?.NominalValue))
      .find((value) => value !== undefined && value.trim() !== '');
    if (rating === undefined) continue;
    for (const material of refs(set?.Material)) if (!ratings.has(material)) ratings.set(material, rating);
  }
  return ratings;
}

export interface DrawingLayer {
  readonly name: string;
  /** Ids of the shape representations, and of single items, that are on it. */
  readonly items: ReadonlySet<number>;
}

export function readDrawingLayers(file: StepFile): DrawingLayer[] {
  return file
    .ids('IFCPRESENTATIONLAYERASSIGNMENT', true)
    .map((id) => file.line(id))
    .map((layer) => ({ name: text(layer?.Name) ?? '', items: new Set(refs(layer?.AssignedItems)) }));
}
