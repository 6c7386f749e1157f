import { inert } from '@fayplate/drawing';
import { strToU8, zipSync } from 'fflate';
import type { PieceSolid } from './solid.js';

const digits = (v: number): string => String(Number(v.toFixed(6)) + 0);

const model = ({ mesh }: PieceSolid, title: string, description: string): string => {
  const [left, bottom] = [0, 1].map((k) => Math.min(...mesh.vertices.map((v) => v[k] ?? 0)));
  const vertices = mesh.vertices.map(([x, y, z]) => `<vertex x="${digits(x)}" y="${digits(y)}" z="${digits(z)}"/>`);
  const triangles = mesh.triangles.map(([a, b, c]) => `<triangle v1="${a}" v2="${b}" v3="${c}"/>`);
  return `<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">
<metadata name="Title">${inert(title)}</metadata>
<metadata name="Description">${inert(description)}</metadata>
<metadata name="Application">Fayplate</metadata>
<resources>
<object id="1" type="model" name="${inert(title)}">
<mesh>
<vertices>
${vertices.join('\n')}
</vertices>
<triangles>
${triangles.join('\n')}
</triangles>
</mesh>
</object>
</resources>
<build>
<item objectid="1" transform="1 0 0 0 1 0 0 0 1 ${digits(-(left ?? 0))} ${digits(-(bottom ?? 0))} 0"/>
</build>
</model>
`;
};

const types = `<?xml version="1.0" encoding="UTF-8"?>
<!-- Fayplate -->
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
`;

const links = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
`;

/**
 * A solid as a 3MF file (3MF Core Specification 1.3 of the 3MF Consortium): one mesh in millimetres in the plate's own
 * frame, laid on the bed by its build item. Dated by no day, so that the same job gives the same bytes.
 */
export const threeMf = (
  solid: PieceSolid,
  { title, description }: { readonly title: string; readonly description: string },
): Uint8Array => {
  const mtime = new Date(1980, 0, 1);
  return zipSync({
    // As it stands, so that the file is known again by its beginning.
    '[Content_Types].xml': [strToU8(types), { level: 0, mtime }],
    '_rels/.rels': [strToU8(links), { level: 6, mtime }],
    '3D/3dmodel.model': [strToU8(model(solid, title, description)), { level: 6, mtime }],
  });
};
