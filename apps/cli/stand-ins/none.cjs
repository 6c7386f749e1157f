// A module that is never called.
module.exports = {};
