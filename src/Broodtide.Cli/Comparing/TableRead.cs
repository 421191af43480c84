using Broodtide.Cli.Door;
using Broodtide.Units;
using Broodtide.Workbench.Comparing;

namespace Broodtide.Cli.Comparing;

/// <summary>Opens a table of a file.</summary>
internal static class TableRead
{
    // A table of vessels is small; a file of this size is something else.
    private const long MostBytes = 50_000_000;

    public static async Task<(CellTable? Table, Remark? Why)> OfAsync(Sitting sitting, string path)
    {
        if (!File.Exists(path))
        {
            return (null, new Remark("file-not-there", new Argument("file", path)));
        }

        return new FileInfo(path).Length > MostBytes
            ? (null, new Remark("table-too-long", new Argument("allowedRows", CellTable.MostRows)))
            : CellTable.Read(await File.ReadAllTextAsync(path, sitting.Cancellation));
    }
}
