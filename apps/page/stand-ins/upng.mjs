// No picture of pixels stands in a sheet.
export default {};
