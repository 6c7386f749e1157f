// What pdf-lib looks at of its standard fonts as it is loaded; no sheet of ours uses one.
module.exports = { Encodings: {}, Font: {}, FontNames: {} };
