/** Writes the figures of the documentation: `npm run figures`. */
import { writeFileSync } from 'node:fs';
import { gallery } from './gallery.js';

for (const [name, svg] of Object.entries(gallery())) writeFileSync(`docs/figures/${name}.svg`, svg);
