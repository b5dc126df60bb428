// Before Node 22 there is no WebSocket. The library reads its constants as it loads and uses it
// for nothing that happens here.
globalThis.WebSocket ??= class {
  static CLOSING = 2;
  static CLOSED = 3;
};
