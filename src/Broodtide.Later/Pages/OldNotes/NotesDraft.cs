using Broodtide.Domain.Larvae;
using Broodtide.Workbench.OldNotes;

namespace Broodtide.Phone.Pages.OldNotes;

/// <summary>What a keeper said of a column so far.</summary>
internal sealed class ColumnSaid
{
    public static readonly string[] All =
    [
        "none",
        "date",
        "time",
        "vessel",
        "reading",
        "count",
        "dead",
        "note",
    ];

    public string As { get; set; } = "none";

    public string Unit { get; set; } = "";

    public CountMethod? Method { get; set; }
}

/// <summary>The answers of a keeper about a file; what was not answered is asked, never guessed.</summary>
internal sealed class NotesDraft(NotesSurvey survey, bool isLatin1)
{
    public NotesSurvey Survey => survey;

    public IReadOnlyList<ColumnSaid> Columns { get; } = [.. survey.Columns.Select(_ => new ColumnSaid())];

    public DateOrder? Order { get; set; }

    public int? Century { get; set; }

    public DecimalMark? Decimal { get; set; }

    public string Vessel { get; set; } = "";

    public int? OneInMinutes { get; set; }

    public DoubleRows Doubles { get; set; }

    public bool LeaveOutUnreadable { get; set; }

    public NotesMap Map(string zone) =>
        new()
        {
            Delimiter = survey.Delimiter,
            IsLatin1 = isLatin1,
            DateColumn = Place("date"),
            TimeColumn = Place("time"),
            VesselColumn = Place("vessel"),
            Order = Order,
            TwoDigitYearsFrom = Century,
            Zone = zone,
            Decimal = Decimal,
            Vessels =
                Vessel.Length > 0
                    ? new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase) { [""] = Vessel }
                    : [],
            Columns =
            [
                .. Columns
                    .Select(
                        (said, place) =>
                            said.As switch
                            {
                                "reading" => new MappedColumn(
                                    place,
                                    ColumnMeaning.Reading,
                                    said.Unit.Length == 0 ? null : said.Unit
                                ),
                                "count" => new MappedColumn(place, ColumnMeaning.Count, Method: said.Method),
                                "dead" => new MappedColumn(place, ColumnMeaning.Dead),
                                "note" => new MappedColumn(place, ColumnMeaning.Note),
                                _ => null,
                            }
                    )
                    .OfType<MappedColumn>(),
            ],
            OneInMinutes = OneInMinutes,
            Doubles = Doubles,
            LeaveOutUnreadable = LeaveOutUnreadable,
        };

    private int? Place(string wanted)
    {
        for (var at = 0; at < Columns.Count; at++)
        {
            if (Columns[at].As == wanted)
            {
                return at;
            }
        }

        return null;
    }
}
