using System.Text.Json;
using System.Text.Json.Nodes;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.Language;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Writing;

/// <summary>An entry in words.</summary>
/// <param name="Title">What happened, to what.</param>
/// <param name="Details">The members that the title does not name.</param>
/// <param name="Mark">Its mark.</param>
/// <param name="Form">The form that writes its kind; none for what no keeper writes by form.</param>
public sealed record Told(string Title, IReadOnlyList<string> Details, TideEntryMark Mark, Form? Form)
{
    /// <summary>The whole in one line.</summary>
    public string Line => Details.Count == 0 ? Title : $"{Title}: {string.Join(", ", Details)}";
}

/// <summary>Tells entries in words, from the same forms that write them.</summary>
public sealed class Teller
{
    private readonly Names _names;
    private readonly Words _words;
    private readonly Formats _formats;

    internal Teller(Names names, Words words, Formats formats)
    {
        _names = names;
        _words = words;
        _formats = formats;
    }

    public Names Names => _names;

    internal Words Words => _words;

    internal Formats Formats => _formats;

    /// <summary>An entry in _words; every entry has some.</summary>
    public Told Tell(Entry entry)
    {
        var kind = entry.Envelope.Kind;
        switch (entry.Fact)
        {
            case ErasedFact:
                return new(
                    _words["told.erased", _words.Or("kind." + kind, kind)],
                    [],
                    TideEntryMark.Note,
                    null
                );
            case UnknownFact:
                return new(_words["told.newer", kind], [], TideEntryMark.NeedsNewerVersion, null);
            case UnreadableFact:
                return new(_words["told.unreadable", kind], [], TideEntryMark.NeedsNewerVersion, null);
            case EntryTakenBack taken:
                return new(
                    _words["told.taken-back"],
                    taken.Reason is { Length: > 0 } reason ? [reason] : [],
                    TideEntryMark.Note,
                    null
                );
            case ActionDone done:
                return new(
                    _words["told.done", Action(done.Action)],
                    Note(done.Note),
                    TideEntryMark.Note,
                    null
                );
            case ActionSkipped skipped:
                return new(
                    _words["told.skipped", Action(skipped.Action)],
                    Note(skipped.Reason),
                    TideEntryMark.Note,
                    null
                );
            case ForecastIssued issued:
                return new(
                    _words["told.forecast", _names.Of(Thing.Run, issued.Run.Value)],
                    [],
                    TideEntryMark.Note,
                    null
                );
            case WaterForetold foretold:
                return new(
                    _words["told.forecast", _names.Of(Thing.Vessel, foretold.Vessel.Value)],
                    [],
                    TideEntryMark.Note,
                    null
                );
            case ProfileValueChosen chosen:
                return new(
                    _words["told.profile", chosen.Species, chosen.Quantity],
                    [
                        .. new[] { chosen.Value, chosen.Low, chosen.High }
                            .OfType<double>()
                            .Select(v => _formats.Plain(v, 3)),
                    ],
                    TideEntryMark.Note,
                    null
                );
            case TrialLaidOut trial:
                return new(
                    _words["told.trial", trial.Name, trial.Varied],
                    [
                        .. trial.Treatments.Select(
                            (treatment, at) =>
                                $"{treatment.Name}: {string.Join(", ", trial.Vessels.Where(vessel => vessel.Treatment == at).Select(vessel => _names.Of(Thing.Vessel, vessel.Vessel.Value)))}"
                        ),
                    ],
                    TideEntryMark.Note,
                    null
                );
            case PhotoAdded photo:
                return new(_words["told.photo"], Note(photo.Caption), TideEntryMark.Photo, null);
        }

        var body = Body(entry);
        return Forms.Of(kind, body) is { } form
            ? WithPictures(Tell(form, body), entry.Fact)
            : new(_words.Or("kind." + kind, kind), [], TideEntryMark.Note, null);
    }

    // What no form asks for: what was counted in, and by whom.
    private Told WithPictures(Told told, Fact fact)
    {
        if (fact is not CountMade { Pictures: { } pictures })
        {
            return told;
        }

        var count = pictures.Counts[0];
        return told with
        {
            Details =
            [
                .. told.Details,
                _words["told.pictures", pictures.Pictures.Count],
                _words[
                    "told.pictures.program",
                    count.Marked,
                    (int)Math.Floor(count.Low),
                    (int)Math.Ceiling(count.High),
                    _words["told.pictures.at." + count.At]
                ],
                .. pictures.OfPerson() is { } person
                    ? [_words["told.pictures.person." + pictures.Person, person]]
                    : Array.Empty<string>(),
                .. pictures.Setup is { } setup ? [setup] : Array.Empty<string>(),
            ],
        };
    }

    /// <summary>The members of an entry.</summary>
    public static JsonObject Body(Entry entry)
    {
        try
        {
            return entry.HasBody
                ? JsonNode.Parse(entry.Bytes.SaltedBody.Span[EntryBytes.SaltLength..])?.AsObject() ?? []
                : [];
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return [];
        }
    }

    /// <summary>A member with its value in _words.</summary>
    public string Said(string name, string value) =>
        _words.Has("said." + name)
            ? _words["said." + name, value]
            : _words["said", _words.Or("field." + name, name), value];

    /// <summary>A yes or a no in _words.</summary>
    public string SaidAs(string name, bool value) => _words[$"said.{name}.{(value ? "yes" : "no")}"];

    /// <summary>A scale in _words.</summary>
    public string Scale(string unit) => _words.Or("scale." + unit, Unit(unit));

    // A pH is said without a unit.
    public string Unit(string code) => code == "[pH]" ? "" : _words.Or("u." + code, code);

    /// <summary>A typed number: as typed where that is what was understood.</summary>
    public string Amount(JsonNode number)
    {
        var (typed, unit) = (number["typed"]?.ToString() ?? "", number["unit"]?.ToString() ?? "");
        var value = number["value"]?.GetValue<double>() ?? 0;
        var read = NumberText.Parse(typed, "");
        var isAsTyped = read.Succeeded && read.Value.Value == value && typed.Trim().Length < 6;
        var shown = isAsTyped ? typed.Trim() : _formats.Plain(value, 4);
        var word = Unit(unit);
        return word.Length == 0 ? shown : shown + Language.Formats.ThinSpace + word;
    }

    private Told Tell(Form form, JsonObject body)
    {
        if (form.Kind == "reading taken")
        {
            return Reading(form, body);
        }

        // A name that begins here stands in the title as it was typed.
        object[] inTitle =
        [
            .. form.InTitle.Select(name =>
                form.Fields.First(field => field.Name == name) is ThingField thing && body[name] is { } id
                    ? _names.Of(thing.Thing, id.ToString())
                    : body[name]?.ToString() ?? _words["name.unknown"]
            ),
        ];
        return new(_words["told." + form.Code, inTitle], Details(form, body, form.InTitle), form.Mark, form);
    }

    private Told Reading(Form form, JsonObject body)
    {
        var unit = body["value"]?["unit"]?.ToString() ?? "";
        var what = _words["measured." + UnitCode.Find(unit)?.Dimension];
        var title = body["vessel"] is { } vessel
            ? _words["told.reading", what, _names.Of(Thing.Vessel, vessel.ToString())]
            : what;
        var value = body["value"] is { } number ? Amount(number) : "";
        var on =
            body["instrument"] is not { } instrument ? value
            // The scale stands with the instrument, not as a unit of the water.
            : unit.StartsWith("sal:", StringComparison.Ordinal)
                ? _words[
                    "said.on.scale",
                    value.Split(Language.Formats.ThinSpace)[0],
                    _names.Of(Thing.Instrument, instrument.ToString()),
                    Scale(unit)
                ]
            : _words["said.on", value, _names.Of(Thing.Instrument, instrument.ToString())];
        return new(title, [on, .. Details(form, body, ["vessel", "value", "instrument"])], form.Mark, form);
    }

    private List<string> Details(Form form, JsonObject body, IReadOnlyList<string> without) =>
        [
            .. form
                .Fields.Where(field => !without.Contains(field.Name) && body[field.Name] is not null)
                .Select(field => field.Tell(body[field.Name]!, this))
                .OfType<string>(),
        ];

    private IReadOnlyList<string> Note(string? note) => note is { Length: > 0 } ? [note] : [];

    // The first word of an action's key says what it was.
    private string Action(string key) =>
        key.Split([' ', '/', ':', '|'], 2)[0] is var code ? _words.Or("deed." + code, code) : key;
}
