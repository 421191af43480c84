using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Dossiers;

/// <summary>Columns and cells that several tables share.</summary>
internal static class SharedColumns
{
    public static readonly Column EntryColumn = new(
        "entry",
        ColumnType.Text,
        "Identity of the entry of the journal that says so.",
        Required: true
    );

    public static readonly Column FromColumn = new(
        "happened_from",
        ColumnType.Instant,
        "The earliest instant at which it may have happened.",
        Required: true
    );

    public static readonly Column ToColumn = new(
        "happened_to",
        ColumnType.Instant,
        "The latest instant; the same where it is known.",
        Required: true
    );

    public static readonly Column VesselColumn = new(
        "vessel",
        ColumnType.Text,
        "Identity of the vessel; its row is in the table of vessels.",
        Required: true
    );

    public static IEnumerable<(Occurrence Occurrence, T Fact)> Told<T>(Dossier dossier)
        where T : Fact =>
        dossier
            .Outlook.House.Account.Occurrences.Where(occurrence => occurrence.Fact is T)
            .Select(occurrence => (occurrence, (T)occurrence.Fact));

    public static IReadOnlyList<string> When(Occurrence occurrence) =>
        [
            Cell.Of(occurrence.Told.Id.Value),
            Cell.Of(occurrence.Happened.Earliest),
            Cell.Of(occurrence.Happened.Latest),
        ];
}
