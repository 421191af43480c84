using System.Globalization;
using System.Text.Json.Nodes;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Phone.Writing;

/// <summary>Words of the keeper's own.</summary>
public sealed record TextField(string Name, bool Needed = false, bool Long = false) : Field(Name, Needed)
{
    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Member(typed[Name].Trim());
}

/// <summary>How many.</summary>
public sealed record CountField(string Name, bool Needed = false) : Field(Name, Needed)
{
    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Whole(typed[Name], Name) is var (count, reason) && reason is null ? Member(count) : No(reason!);

    public override string Tell(JsonNode told, Teller teller) =>
        teller.Said(Name, teller.Formats.Plain(told.GetValue<double>(), 0));

    /// <summary>A whole number from nought up.</summary>
    public static (int Count, Remark? Reason) Whole(string text, string field)
    {
        var read = NumberText.Parse(text, field);
        return !read.Succeeded ? (0, read.Reason)
            : read.Value.Value is >= 0 and <= int.MaxValue && double.IsInteger(read.Value.Value)
                ? ((int)read.Value.Value, null)
            : (0, new Remark("count-not-whole", new("field", field), new("typed", text.Trim())));
    }
}

/// <summary>A number without a unit of its own.</summary>
public sealed record NumberField(string Name, double Lowest, double Highest) : Field(Name, false)
{
    public override void Prefill(JsonNode told, Typed typed) =>
        typed[Name] = told.GetValue<double>().ToString(CultureInfo.InvariantCulture);

    public override string Tell(JsonNode told, Teller teller) =>
        teller.Said(Name, teller.Formats.Plain(told.GetValue<double>(), 3));

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making)
    {
        var read = NumberText.Parse(typed[Name], Name);
        return !read.Succeeded ? No(read.Reason)
            : read.Value.Value >= Lowest && read.Value.Value <= Highest ? Member(read.Value.Value)
            : No(
                new Remark(
                    "number-outside",
                    new("field", Name),
                    new("typed", typed[Name].Trim()),
                    new("lowest", Lowest),
                    new("highest", Highest)
                )
            );
    }
}

/// <summary>Looked at: yes, no, or not looked. Where the entry needs it, yes or no.</summary>
public sealed record AnswerField(string Name, bool Needed = false) : Field(Name, Needed)
{
    public override void Prefill(JsonNode told, Typed typed) =>
        typed[Name] = told.GetValue<bool>() ? Typed.Yes : Typed.No;

    public override string Tell(JsonNode told, Teller teller) => teller.SaidAs(Name, told.GetValue<bool>());

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Member(typed.IsTicked(Name));
}

/// <summary>Something that is so when ticked.</summary>
/// <param name="Name">The member.</param>
/// <param name="Usual">How it usually is.</param>
public sealed record TickField(string Name, bool Usual = false) : Field(Name, false)
{
    public override void Prefill(JsonNode told, Typed typed) =>
        typed[Name] = told.GetValue<bool>() ? Typed.Yes : Typed.No;

    public override string? Tell(JsonNode told, Teller teller) =>
        told.GetValue<bool>() == Usual ? null : teller.SaidAs(Name, told.GetValue<bool>());

    protected override bool IsLeftOut(Typed typed) => false;

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Member(typed.IsEmpty(Name) ? Usual : typed.IsTicked(Name));
}

/// <summary>One of a few words.</summary>
public sealed record OneOfField(string Name, bool Needed, params string[] Codes) : Field(Name, Needed)
{
    public override string Tell(JsonNode told, Teller teller) =>
        teller.Said(Name, teller.Words["is." + told]);

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Member(typed[Name]);
}

/// <summary>The scale of an instrument.</summary>
public sealed record ScaleField(string Name) : Field(Name, false)
{
    public override string Tell(JsonNode told, Teller teller) =>
        teller.Said(Name, teller.Scale(told.ToString()));

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Member(typed[Name]);
}

/// <summary>A point in time beside the one of the entry.</summary>
public sealed record MomentField(string Name) : Field(Name, false)
{
    public static LocalDateTimePattern Pattern { get; } =
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm");

    public override void Prefill(JsonNode told, Typed typed)
    {
        if (InstantPattern.ExtendedIso.Parse(told.ToString()) is { Success: true, Value: var instant })
        {
            typed[Name] = Pattern.Format(instant.InZone(typed.Zone).LocalDateTime);
        }
    }

    public override string Tell(JsonNode told, Teller teller) =>
        teller.Said(
            Name,
            InstantPattern.ExtendedIso.Parse(told.ToString()) is { Success: true, Value: var instant }
                ? teller.Formats.Moment(instant)
                : told.ToString()
        );

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Read(typed[Name], making.Zone) is { } instant
            ? Member(UtcText.Format(instant))
            : No(new Remark("time-not-read", new("field", Name), new("typed", typed[Name])));

    /// <summary>What a browser's field for day and time holds.</summary>
    public static Instant? Read(string text, DateTimeZone zone) =>
        text.Length >= 16 && Pattern.Parse(text[..16]) is { Success: true, Value: var local }
            ? local.InZoneLeniently(zone).ToInstant()
            : null;
}

/// <summary>A member that the form itself knows.</summary>
public sealed record FixedField(string Name, bool Value) : Field(Name, false)
{
    public override bool IsShown => false;

    public override void Prefill(JsonNode told, Typed typed) { }

    public override string? Tell(JsonNode told, Teller teller) => null;

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Member(Value);
}

/// <summary>The identity of a thing that begins with the entry.</summary>
public sealed record NewField(string Name) : Field(Name, false)
{
    public override bool IsShown => false;

    public override void Prefill(JsonNode told, Typed typed) { }

    public override string? Tell(JsonNode told, Teller teller) => null;

    // A correction speaks of the same thing.
    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Member(body[Name]?.ToString() ?? making.NewId().ToString());
}
