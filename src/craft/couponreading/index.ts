export { measureEdge, type NoEdge, type SlantedEdge } from './slanted-edge.js';
