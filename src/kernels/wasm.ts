/**
 * The few parts of WebAssembly that kernels use, declared here because this folder compiles without Node and
 * without the DOM (https://webassembly.github.io/spec/js-api/). The real objects fit these shapes.
 */
export interface WasmMemory {
  readonly buffer: SharedArrayBuffer;
}

/** Opaque: compiled code, cloneable to other threads. */
export type WasmModule = object;

interface WasmHost {
  readonly Memory: new (limits: { initial: number; maximum: number; shared: boolean }) => WasmMemory;
  readonly Module: new (bytes: Uint8Array) => WasmModule;
  readonly Instance: new (module: WasmModule, imports: object) => { readonly exports: object };
}

/** The engine's WebAssembly object. */
export const wasm: WasmHost = (globalThis as unknown as { WebAssembly: WasmHost }).WebAssembly;

export const wasmPageBytes = 65536;
