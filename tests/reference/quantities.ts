/** Quantities that models state of their own elements, read with web-ifc alone. */
import { IFCRELDEFINESBYPROPERTIES, IfcAPI, LogLevel } from 'web-ifc';

export interface StatedQuantity {
  readonly globalId: string;
  readonly name: string;
  /** In the file's own unit, as it is written. */
  readonly value: number;
}

interface Ref {
  readonly value: number;
}
interface Line {
  readonly GlobalId?: { readonly value: string };
  readonly Name?: { readonly value: string } | null;
  readonly RelatedObjects?: readonly Ref[];
  readonly RelatingPropertyDefinition?: Ref;
  readonly Quantities?: readonly Ref[];
  readonly LengthValue?: { readonly value: number };
  readonly VolumeValue?: { readonly value: number };
}

/** Lengths and volumes of element quantities, by element. */
export async function statedQuantities(bytes: Uint8Array): Promise<StatedQuantity[]> {
  const api = new IfcAPI();
  await api.Init();
  api.SetLogLevel(LogLevel.LOG_LEVEL_OFF);
  const model = api.OpenModel(bytes, { TAPE_SIZE: 4 << 20 });
  const line = (id: number) => api.GetLine(model, id) as Line;
  const ids = api.GetLineIDsWithType(model, IFCRELDEFINESBYPROPERTIES);
  const found: StatedQuantity[] = [];
  for (let i = 0; i < ids.size(); i++) {
    const { RelatedObjects: elements = [], RelatingPropertyDefinition: set } = line(ids.get(i));
    for (const quantity of (set && line(set.value).Quantities) ?? []) {
      const { Name, LengthValue, VolumeValue } = line(quantity.value);
      const value = (LengthValue ?? VolumeValue)?.value;
      if (value === undefined || !Name) continue;
      for (const element of elements)
        found.push({ globalId: line(element.value).GlobalId!.value, name: Name.value, value });
    }
  }
  api.CloseModel(model);
  return found;
}
