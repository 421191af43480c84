using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using static Broodtide.Workbench.Dossiers.SharedColumns;

namespace Broodtide.Workbench.Dossiers;

/// <summary>
/// What a dossier's entries tell, as tables: what was written, one row a thing, and what is computed of it. What an entry
/// that was corrected said stands in the table of entries alone.
/// </summary>
public static class DossierTables
{
    /// <summary>All tables, in the order in which they are to be read.</summary>
    public static IReadOnlyList<DataTable> Of(Dossier dossier)
    {
        ArgumentNullException.ThrowIfNull(dossier);
        return
        [
            Vessels(dossier),
            LarvaTables.Crossings(dossier),
            LarvaTables.Counts(dossier),
            LarvaTables.Stages(dossier),
            LarvaTables.Tallies(dossier),
            WaterTables.Readings(dossier),
            WaterTables.WaterMoves(dossier),
            WaterTables.Feedings(dossier),
            DossierEstimates.Of(dossier),
            Entries(dossier),
        ];
    }

    private static DataTable Vessels(Dossier dossier)
    {
        var house = dossier.Outlook.House;
        var lived = dossier.Broods.SelectMany(house.VesselsOf).Select(vessel => vessel.Id).ToHashSet();
        return new(
            "vessels",
            "Vessels",
            "One row a vessel that the entries speak of. The vessel, not the larva, is the unit of a comparison.",
            [
                VesselColumn,
                new("name", ColumnType.Text, "What it is called."),
                new("role", ColumnType.Text, "What it is for.", Codes: Cell.Words<VesselRole>()),
                new("capacity_l", ColumnType.Number, "How much it holds.", "L"),
                new(
                    "larvae_lived_here",
                    ColumnType.YesNo,
                    "Whether larvae of these runs lived in it.",
                    Required: true
                ),
                new(
                    "is_mixed",
                    ColumnType.YesNo,
                    "Whether larvae of more than one brood lived in it: it is left out of comparisons then.",
                    Required: true
                ),
            ],
            [
                .. house.Vessels.Select(vessel =>
                    (IReadOnlyList<string>)
                        [
                            Cell.Of(vessel.Id.Value),
                            vessel.Name ?? "",
                            Cell.Word(vessel.Role),
                            Cell.Of(vessel.Capacity?.Litres),
                            Cell.Of(lived.Contains(vessel.Id)),
                            Cell.Of(house.IsMixed(vessel.Id)),
                        ]
                ),
            ]
        );
    }

    private static DataTable Entries(Dossier dossier) =>
        new(
            "entries",
            "Entries of the journal",
            "One row an entry, the corrected ones with their corrections, in the order in which they were written down.",
            [
                EntryColumn,
                FromColumn,
                ToColumn,
                new(
                    "written",
                    ColumnType.Instant,
                    "The device's clock when it was written down.",
                    Required: true
                ),
                new("author", ColumnType.Text, "Who wrote it.", Required: true),
                new("kind", ColumnType.Text, "What kind of entry it is.", Required: true),
                new("kind_version", ColumnType.Integer, "Version of the kind's shape.", "1", Required: true),
                new(
                    "correction",
                    ColumnType.Text,
                    "How it corrects another entry.",
                    Codes: Cell.Words<CorrectionKind>()
                ),
                new("corrects", ColumnType.Text, "Identity of the entry it corrects."),
                new("facts", ColumnType.Text, "The facts as JSON.", Required: true),
            ],
            [
                .. dossier.Entries.Select(entry =>
                    (IReadOnlyList<string>)
                        [
                            Cell.Of(entry.Id.Value),
                            Cell.Of(entry.Envelope.Happened.Earliest),
                            Cell.Of(entry.Envelope.Happened.Latest),
                            Cell.Of(entry.Envelope.Written),
                            entry.Envelope.Author.Name,
                            entry.Envelope.Kind,
                            Cell.Of(entry.Envelope.Version),
                            Cell.Word(entry.Envelope.Correction?.Kind),
                            Cell.Of(entry.Envelope.Correction?.Target.Value),
                            Encoding.UTF8.GetString(entry.Bytes.SaltedBody.Span[EntryBytes.SaltLength..]),
                        ]
                ),
            ]
        );
}
