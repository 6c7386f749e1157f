// The thread that prints beside the command line (src/press).
require('./load.js').load('press.js').serve();
