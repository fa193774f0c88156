/** The least that any viewer does before it shows anything: open the files and take the triangles of everything in them. */
import { readFileSync } from 'node:fs';
import * as WebIFC from 'web-ifc';

const api = new WebIFC.IfcAPI();
await api.Init(undefined, true);
api.SetLogLevel(WebIFC.LogLevel.LOG_LEVEL_OFF);
let triangles = 0;
for (const path of process.argv.slice(2)) {
  process.stderr.write('Opening\n');
  const model = api.OpenModel(readFileSync(path));
  if (model < 0) throw new Error('web-ifc can not open it');
  process.stderr.write('Streaming\n');
  const taken = new Set<number>();
  api.StreamAllMeshes(model, ({ geometries }) => {
    for (let i = 0; i < geometries.size(); i++) {
      const { geometryExpressID: id } = geometries.get(i);
      // What is used again is drawn again, not taken again.
      if (taken.has(id)) continue;
      taken.add(id);
      const geometry = api.GetGeometry(model, id);
      api.GetVertexArray(geometry.GetVertexData(), geometry.GetVertexDataSize());
      triangles += api.GetIndexArray(geometry.GetIndexData(), geometry.GetIndexDataSize()).length / 3;
      geometry.delete();
    }
  });
  api.CloseModel(model);
}
process.stdout.write(`${triangles}\n`);
