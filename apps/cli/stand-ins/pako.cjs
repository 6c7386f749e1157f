// The two functions of pako that pdf-lib calls, by Node's own zlib.
const { deflateSync, inflateSync } = require('node:zlib');

module.exports = {
  deflate: (data) => new Uint8Array(deflateSync(data)),
  inflate: (data) => new Uint8Array(inflateSync(data)),
};
