export { canonicalJson, digestOf } from './digest.js';
export { dropUnnamed } from './drop-unnamed.js';
export { migrations } from './migrations.js';
export { missing } from './missing.js';
export { type Db, type OpenDatabase, openDatabase } from './open-database.js';
export { Records } from './records.js';
