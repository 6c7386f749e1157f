// What stands in a PDF is compressed by fflate before pdf-lib sees it: its own compressor is never called.
export default {};
