using System.Runtime.InteropServices.JavaScript;
using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Dossiers;
using NodaTime;

namespace Broodtide.Phone.Dossiers;

/// <summary>
/// What a dossier's page calls that carries these very files: the numbers of its entries, computed where the page was
/// opened. It needs no page of the app, no store and no network.
/// </summary>
internal static partial class Replay
{
    /// <summary>The table of estimates of a journal, as comma-separated values.</summary>
    /// <param name="journal">The journal as JSON Lines.</param>
    /// <param name="runs">Identities of the runs, parted by commas.</param>
    /// <param name="told">The instant they are told for, ISO 8601 in UTC.</param>
    /// <param name="zone">IANA name of the zone they are told in.</param>
    [JSExport]
    internal static string Estimates(string journal, string runs, string told, string zone)
    {
        var entries = JournalLines.Read(journal.Split('\n', StringSplitOptions.RemoveEmptyEntries)).Value;
        return UtcText.TryParse(Encoding.UTF8.GetBytes(told), out var at)
            ? Encoding.UTF8.GetString(
                DossierEstimates
                    .Of(
                        Dossier.Carried(
                            entries,
                            [.. runs.Split(',').Select(run => new RunId(Guid.Parse(run)))],
                            at,
                            DateTimeZoneProviders.Tzdb[zone]
                        )
                    )
                    .ToCsv()
            )
            : throw new FormatException(told);
    }
}
