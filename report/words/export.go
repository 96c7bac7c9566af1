package words

// ExportTitle is the title of the rows of marks.
const ExportTitle = "Marks"
