using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Phone.Writing;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Reminders;
using NodaTime;

namespace Broodtide.Phone.Reminding;

/// <summary>
/// One line of the sheet while it is typed in. What it holds is a fact of its form, and that the action is done. A line
/// in which nothing was typed or ticked is skipped.
/// </summary>
internal sealed class SheetEntry
{
    /// <summary>The name under which a wrong time is told.</summary>
    public const string TimeField = "when";

    private static readonly Dictionary<string, Remark> None = [];
    private readonly Dictionary<string, string> _known = new(StringComparer.Ordinal);
    private readonly DateTimeZone _zone;

    public SheetEntry(SheetRow row, DateTimeZone zone, IReadOnlyDictionary<string, string> usual)
    {
        Row = row;
        _zone = zone;
        Typed = new Typed(zone);
        Form = FormOf(row) is { } code ? Forms.Find(code) : null;
        Asked = Form is null ? [] : [.. Form.Shown.Where(field => FieldsOf(row.Blank).Contains(field.Name))];
        if (AboutField(row) is { } about)
        {
            Know(about, row.About.ToString());
        }

        foreach (var (name, value) in usual)
        {
            Know(name, value);
        }
    }

    public SheetRow Row { get; }

    /// <summary>The form whose fact it writes; none where there is nothing to write but that it is done.</summary>
    public Form? Form { get; }

    /// <summary>The fields that the sheet left blank.</summary>
    public IReadOnlyList<Field> Asked { get; }

    public Typed Typed { get; }

    /// <summary>At which time of the day; empty where nobody wrote one.</summary>
    public string Time { get; set; } = "";

    public bool IsTicked { get; set; }

    /// <summary>Whether what the line looks for was seen; none where it was not looked for.</summary>
    public bool? Seen { get; set; }

    public IReadOnlyDictionary<string, Remark> Wrong { get; private set; } = None;

    public Question? Question { get; private set; }

    private Asking? Asking { get; set; }

    /// <summary>Whether anything was typed beside what was known beforehand.</summary>
    public bool IsBlank =>
        !IsTicked && Seen is null && Time.Length == 0 && !Asked.Any(it => HasTyped(it.Name));

    /// <summary>Something was typed: what was asked before holds no more.</summary>
    public void Touched() => (Asking, Question) = (null, null);

    /// <summary>Understands the line; false where it cannot, or asks back.</summary>
    public bool Read(LocalDate day, Instant now, House house, Making making)
    {
        Wrong = None;
        Question = null;
        if (IsBlank)
        {
            return true;
        }

        if (HappenedOn(day, now) is not { } happened)
        {
            Wrong = new Dictionary<string, Remark>
            {
                [TimeField] = new("time-not-read", new("field", TimeField), new("typed", Time)),
            };
            return false;
        }

        Happened = happened;
        if (!HasFact)
        {
            Asking = null;
            return true;
        }

        if (Asking is null)
        {
            var (fact, wrong) = Form!.Make(Typed, making, null);
            Wrong = wrong;
            if (fact is null)
            {
                return false;
            }

            Asking = new Asking(fact, happened);
        }

        Question = Asking.Next(house, now);
        if (Question is null && Asking.Fact.Impossible() is { } impossible)
        {
            Wrong = new Dictionary<string, Remark> { [impossible["field"]?.ToString() ?? ""] = impossible };
        }

        return Question is null && Wrong.Count == 0;
    }

    /// <summary>Answers what was asked back.</summary>
    public void Answer(bool likelier)
    {
        if (likelier)
        {
            Asking?.AsLikelier(Question!);
        }
        else
        {
            Asking?.AsTyped(Question!);
        }

        Question = null;
    }

    /// <summary>What the line writes, once it was read.</summary>
    public IEnumerable<Draft> Drafts(Keeper keeper)
    {
        if (IsBlank)
        {
            yield break;
        }

        if (Asking is not null)
        {
            yield return keeper.Write(Asking.Fact, Asking.Happened);
        }

        yield return keeper.Write(
            new ActionDone(Row.Key, Row.Kind is SubjectKind.House ? null : Row.About),
            Asking?.Happened ?? Happened
        );
    }

    private Happened Happened { get; set; }

    // A look that showed nothing writes no fact, only that somebody looked.
    private bool HasFact =>
        Form is not null
        && (
            Row.Blank is SheetBlank.Hatching ? Seen == true
            : Row.Blank is SheetBlank.Settled ? HasTyped("number") && Typed["number"].Trim() != "0"
            : Asked.Any(it => HasTyped(it.Name))
        );

    private bool HasTyped(string name) =>
        // Where volumes were tapped beforehand only a number seen counts.
        name == "samples"
            ? Enumerable
                .Range(0, SamplesField.Most)
                .Any(at => !Typed.IsEmpty(new SamplesField(name).Seen(at)))
            : !Typed.IsEmpty(name) && Typed[name] != _known.GetValueOrDefault(name);

    private void Know(string name, string value)
    {
        _known[name] = value;
        Typed[name] = value;
    }

    // Without a time it was some time on that day, and not later than now.
    private Happened? HappenedOn(LocalDate day, Instant now)
    {
        var dawn = _zone.AtStartOfDay(day).ToInstant();
        var dusk = _zone.AtStartOfDay(day.PlusDays(1)).ToInstant();
        return Time.Length > 0
            ? Asleepness.Time(Time) is { } time
                ? Domain.Journal.Happened.At(_zone.AtLeniently(day + time).ToInstant())
                : null
            : Domain.Journal.Happened.Between(dawn, Instant.Max(dawn, Instant.Min(dusk, now)));
    }

    private static string? FormOf(SheetRow row) =>
        row.Blank switch
        {
            SheetBlank.Salinity => "reading",
            SheetBlank.Temperature => "temperature",
            SheetBlank.Poured => "topped-up",
            SheetBlank.Fed => "fed",
            SheetBlank.Counted => "counted",
            SheetBlank.Eggs => "eggs",
            SheetBlank.Hatching => "hatching",
            SheetBlank.Gathered => "collected",
            SheetBlank.Settled => "settled",
            _ => null,
        };

    private static string[] FieldsOf(SheetBlank blank) =>
        blank switch
        {
            SheetBlank.Salinity or SheetBlank.Temperature => ["value", "instrument"],
            SheetBlank.Poured => ["volume"],
            SheetBlank.Fed => ["food", "volume"],
            SheetBlank.Counted => ["method", "samples"],
            SheetBlank.Eggs => ["eyed", "colour"],
            SheetBlank.Gathered or SheetBlank.Settled => ["number"],
            _ => [],
        };

    private static string? AboutField(SheetRow row) =>
        row.Blank switch
        {
            SheetBlank.Poured => "to",
            SheetBlank.Eggs or SheetBlank.Hatching or SheetBlank.Gathered => "brood",
            SheetBlank.Done => null,
            _ => "vessel",
        };
}
