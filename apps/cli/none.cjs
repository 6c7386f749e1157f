// Stands in for a module that is never called (see build.mjs).
module.exports = {};
