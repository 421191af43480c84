// Reads a data package with the standard's own JavaScript library and tells whether it is valid, and how many rows of each
// table can be read by its schema. By hand, in a folder of its own:
//   npm install datapackage@1.1.10
//   node check-data-package.mjs FOLDER/datapackage.json
import { createRequire } from 'node:module';
import { join } from 'node:path';

const { Package } = createRequire(join(process.cwd(), 'here.js'))('datapackage');
const read = await Package.load(process.argv[2]);
console.log(read.valid ? 'valid' : 'not valid', read.errors.map(error => error.message).join('; '));
for (const resource of read.resources.filter(resource => resource.tabular)) {
  console.log(resource.name, (await resource.read()).length, 'rows');
}
process.exitCode = read.valid ? 0 : 1;
