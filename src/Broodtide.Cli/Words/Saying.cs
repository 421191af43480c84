using System.Globalization;
using System.Text;
using Broodtide.Cli.Door;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Cli.Words;

/// <summary>A remark for machines: its code, its arguments, and the sentence.</summary>
internal sealed record RemarkJson(string Code, IReadOnlyDictionary<string, string> Arguments, string Words);

/// <summary>Turns codes with arguments into English sentences: names of things, local time, numbers with units.</summary>
internal sealed class Saying(DateTimeZone zone, House? house)
{
    private static readonly LocalDateTimePattern Minute = LocalDateTimePattern.CreateWithInvariantCulture(
        "uuuu'-'MM'-'dd' 'HH':'mm"
    );

    private readonly Naming? _naming = house is null ? null : new Naming(house);

    public DateTimeZone Zone => zone;

    public string Of(Remark remark) => Of(remark.Code, remark.Arguments);

    /// <summary>The sentence of a code; the bare code where this build has none.</summary>
    public string Of(string code, IReadOnlyList<Argument> arguments)
    {
        if (Sentences.Find(code) is not { } sentence)
        {
            return new Remark(code, [.. arguments]).ToString();
        }

        var said = new StringBuilder(sentence.Length + 32);
        var at = 0;
        while (at < sentence.Length)
        {
            var open = sentence.IndexOf('{', at);
            var close = open < 0 ? -1 : sentence.IndexOf('}', open);
            if (close < 0)
            {
                break;
            }

            said.Append(sentence, at, open - at);
            var name = sentence[(open + 1)..close];
            var argument = arguments.FirstOrDefault(a => a.Name == name);
            said.Append(argument.Value is null ? "?" : Value(argument.Name, argument.Value));
            at = close + 1;
        }

        return said.Append(sentence, at, sentence.Length - at).ToString();
    }

    /// <summary>The sentence of a member of a closed list.</summary>
    public static string Of<T>(T member)
        where T : struct, Enum => Sentences.Find(Key(member)) ?? EnumWords.Plain(member);

    public static string Key<T>(T member)
        where T : struct, Enum =>
        $"{System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(typeof(T).Name)}.{EnumWords.Of(member)}";

    public RemarkJson Json(Remark remark) =>
        new(
            remark.Code,
            remark.Arguments.ToDictionary(a => a.Name, a => Plain(a.Value), StringComparer.Ordinal),
            Of(remark)
        );

    public string Time(Instant instant) => Minute.Format(instant.InZone(zone).LocalDateTime);

    public string Day(Instant instant) => LocalDatePattern.Iso.Format(instant.InZone(zone).Date);

    public string Time(Happened happened)
    {
        if (happened.Doubt == Duration.Zero)
        {
            return Time(happened.Earliest);
        }

        var (from, to) = (happened.Earliest.InZone(zone), happened.Latest.InZone(zone));
        return from.Date == to.Date
            ? $"{Time(happened.Earliest)} to {to.Hour:00}:{to.Minute:00}"
            : $"{Time(happened.Earliest)} to {Time(happened.Latest)}";
    }

    public static string Iso(Instant instant) => InstantPattern.ExtendedIso.Format(instant);

    /// <summary>A number in as many figures as a reader needs.</summary>
    public static string Number(double value)
    {
        var size = Math.Abs(value);
        var text = value.ToString(
            size >= 1000 ? "0"
                : size >= 100 ? "0.#"
                : size >= 1 ? "0.##"
                : size >= 0.01 ? "0.###"
                : "0.#####",
            CultureInfo.InvariantCulture
        );
        return text is "-0" ? "0" : text;
    }

    private string Value(string name, object value) =>
        value switch
        {
            double number => Amount(name, number),
            int number => Amount(name, number),
            Instant instant => Time(instant),
            LocalDate date => LocalDatePattern.Iso.Format(date),
            Duration span => $"{Number(span.TotalHours)} h",
            VesselId id => Named(Subject.Of(id)),
            AnimalId id => Named(Subject.Of(id)),
            BroodId id => Named(Subject.Of(id)),
            RunId id => Named(Subject.Of(id)),
            CohortId id => Named(Subject.Of(id)),
            InstrumentId id => Named(Subject.Of(id)),
            EntryId id => Entry(id),
            ReplicaId id => Naming.Short(id.Value),
            Guid id => Naming.Short(id),
            Subject subject => Named(subject),
            bool yes => yes ? "yes" : "no",
            LimitedQuantity quantity => Of(quantity),
            string text when name is "unit" or "likelierUnit" => UnitNames.Of(text),
            string text when name is "allowed" => UnitNames.OfList(text),
            // What others say ends with a point of its own.
            string text when name is "reason" or "message" => text.TrimEnd('.'),
            _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "",
        };

    private string Named(Subject subject) => _naming?.NameOf(subject) ?? Naming.Short(subject.Id);

    private string Entry(EntryId id) =>
        house?.Account.Find(id) is { } entry
            ? $"{Naming.Short(id)} ({entry.Envelope.Kind}, {Time(entry.Envelope.Happened.Earliest)})"
            : Naming.Short(id);

    // The name of a number ends with its unit.
    private static readonly (string Ending, Func<double, string> Say)[] Units =
    [
        ("Ppt", n => $"{Number(n)} ppt"),
        ("Millilitres", n => $"{Number(n)} mL"),
        ("Litres", UnitNames.Litres),
        ("Celsius", n => $"{Number(n)} °C"),
        ("MilligramsPerLitre", n => $"{Number(n)} mg/L"),
        ("GramsPerLitre", n => $"{Number(n)} g/L"),
        ("PerMillilitre", n => $"{Number(n)} cells/mL"),
        ("Grams", n => $"{Number(n)} g"),
        ("Minutes", n => $"{Number(n)} min"),
        ("Hours", n => $"{Number(n)} h"),
        ("Days", n => $"{Number(n)} days"),
        ("Percent", n => $"{Number(Math.Round(n, n < 10 ? 1 : 0))} %"),
    ];

    // Names that begin with the unit, and shares that are named by what they are the chance of.
    private static readonly (string Beginning, Func<double, string> Say)[] Beginnings =
    [
        ("hours", n => $"{Number(n)} h"),
        ("days", n => $"{Number(n)} days"),
        ("celsius", n => $"{Number(n)} °C"),
        ("chance", Percent),
        ("larvaeFirst", Percent),
        ("harmInBox", Percent),
        ("outAlready", Percent),
        ("settledShare", Percent),
    ];

    private static string Amount(string name, double number)
    {
        foreach (var (ending, say) in Units)
        {
            if (name.EndsWith(ending, StringComparison.Ordinal))
            {
                return say(number);
            }
        }

        foreach (var (beginning, say) in Beginnings)
        {
            if (name.StartsWith(beginning, StringComparison.Ordinal))
            {
                return say(number);
            }
        }

        return Number(number);
    }

    public static string Percent(double fraction) =>
        fraction is > 0 and < 0.005 ? "under 1 %"
        : fraction is > 0.995 and < 1 ? "over 99 %"
        : $"{Math.Round(100 * fraction).ToString(CultureInfo.InvariantCulture)} %";

    private static string Plain(object value) =>
        value switch
        {
            double number => number.ToString("R", CultureInfo.InvariantCulture),
            Instant instant => Iso(instant),
            LocalDate date => LocalDatePattern.Iso.Format(date),
            VesselId id => id.Value.ToString(),
            AnimalId id => id.Value.ToString(),
            BroodId id => id.Value.ToString(),
            RunId id => id.Value.ToString(),
            CohortId id => id.Value.ToString(),
            InstrumentId id => id.Value.ToString(),
            EntryId id => id.Value.ToString(),
            ReplicaId id => id.Value.ToString(),
            bool yes => yes ? "true" : "false",
            _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "",
        };
}
