// What two common readers find in a workbook, as JSON: sheets with their notes, formulas, rules.
const exceljs = require("exceljs");
const sheetjs = require("xlsx");

async function byExceljs(path) {
  const book = new exceljs.Workbook();
  await book.xlsx.readFile(path);
  return book.worksheets.map((sheet) => {
    const found = { name: sheet.name, notes: 0, formulas: 0, drawn: sheet.model.drawing ? 1 : 0 };
    sheet.eachRow((row) =>
      row.eachCell((cell) => {
        found.notes += cell.note ? 1 : 0;
        found.formulas += cell.formula ? 1 : 0;
      }),
    );
    return found;
  });
}

function bySheetjs(path) {
  const book = sheetjs.readFile(path, { cellFormula: true });
  return book.SheetNames.map((name) => {
    const cells = Object.entries(book.Sheets[name]).filter(([place]) => place[0] !== "!");
    return {
      name,
      notes: cells.filter(([, cell]) => cell.c).length,
      formulas: cells.filter(([, cell]) => cell.f).length,
    };
  });
}

(async () => {
  const path = process.argv[2];
  console.log(JSON.stringify({ exceljs: await byExceljs(path), sheetjs: bySheetjs(path) }));
})();
