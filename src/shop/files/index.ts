export { ContentFiles, type KeptFile } from './content-files.js';
export { asDiskProblem, onDisk } from './disk-problems.js';
export { type FileSystemPort, nodeFileSystem, type OpenFile } from './file-system.js';
export { makeFolder } from './make-folder.js';
export { Scratch } from './scratch.js';
