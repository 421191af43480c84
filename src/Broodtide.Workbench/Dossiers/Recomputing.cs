using System.Globalization;
using System.Text;
using Broodtide.Units;

namespace Broodtide.Workbench.Dossiers;

/// <summary>What came of computing a dossier's numbers again.</summary>
/// <param name="Numbers">How many numbers were compared.</param>
/// <param name="Different">How many do not come out again.</param>
/// <param name="First">The first that does not; none where all do.</param>
public sealed record Recomputed(int Numbers, int Different, Remark? First);

/// <summary>
/// Computes the numbers of a dossier again from its own entries, and compares them with those that it carries. They agree
/// where they differ by less than one in a thousand million.
/// </summary>
public static class Recomputing
{
    /// <summary>The greatest difference at which two numbers agree, of numbers about 1; of larger ones the share.</summary>
    public const double Tolerance = 1e-9;

    /// <summary>Where the table of estimates stands in a package.</summary>
    public const string TableName = "tables/estimates.csv";

    /// <summary>Compares; or says that it carries no numbers.</summary>
    public static Parsed<Recomputed> Of(ForeignDossier dossier)
    {
        ArgumentNullException.ThrowIfNull(dossier);
        if (dossier.Files.FirstOrDefault(file => file.Path == TableName) is not { } table)
        {
            return Parsed<Recomputed>.No("dossier-without-numbers");
        }

        var again = DossierEstimates.Of(
            Dossier.Carried(dossier.Entries, dossier.RunIds, dossier.ToldFor, dossier.Zone)
        );
        return Parsed<Recomputed>.Of(
            Compare(Encoding.UTF8.GetString(table.Bytes.Span), Encoding.UTF8.GetString(again.ToCsv()))
        );
    }

    private static Recomputed Compare(string was, string now)
    {
        // Our own tables of numbers hold no quoted cell; one that does is no such table, and no cell of it agrees.
        var (before, after) = (Cells(was), Cells(now));
        var (numbers, different) = (0, 0);
        (int Row, string Was, string Now)? first = null;
        for (var row = 0; row < Math.Max(before.Count, after.Count); row++)
        {
            var (left, right) = (before.ElementAtOrDefault(row) ?? [], after.ElementAtOrDefault(row) ?? []);
            for (var at = 0; at < Math.Max(left.Length, right.Length); at++)
            {
                var (old, fresh) = (left.ElementAtOrDefault(at) ?? "", right.ElementAtOrDefault(at) ?? "");
                numbers += double.TryParse(old, CultureInfo.InvariantCulture, out _) ? 1 : 0;
                if (!Agree(old, fresh))
                {
                    different++;
                    first ??= (row + 1, old, fresh);
                }
            }
        }

        return new(
            numbers,
            different,
            first is { } found
                ? new Remark(
                    "dossier-numbers-differ",
                    new("different", different),
                    new("numbers", numbers),
                    new("row", found.Row),
                    new("was", found.Was),
                    new("now", found.Now)
                )
                : null
        );
    }

    private static List<string[]> Cells(string table) =>
        [.. table.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split(','))];

    private static bool Agree(string was, string now) =>
        string.Equals(was, now, StringComparison.Ordinal)
        || (
            double.TryParse(was, CultureInfo.InvariantCulture, out var old)
            && double.TryParse(now, CultureInfo.InvariantCulture, out var fresh)
            && Math.Abs(old - fresh) <= Tolerance * Math.Max(1, Math.Abs(old))
        );
}
