using System.Text.Json.Nodes;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Writing;

/// <summary>A group of forms under one word.</summary>
internal sealed record FormGroup(string Code, params Form[] Forms);

/// <summary>Every kind of entry that a keeper writes by form, in the trade's groups.</summary>
internal static class Forms
{
    private const string Release = "care.write.release";
    private const string Mains = "care.write.mains";

    private static readonly string[] Roles =
    [
        "brood-tank",
        "hatching-box",
        "cup",
        "larval-vessel",
        "algae-culture",
        "store",
        "nursery",
        "egg-vessel",
    ];

    private static readonly string[] Foods =
    [
        "green-water",
        "film",
        "yeast",
        "powder",
        "rotifers",
        "artemia",
        "other",
    ];

    private static readonly string[] Looks = Codes<WaterLook>();

    private static readonly string[] Covers = Codes<FilmCover>();

    private static readonly string[] Algae = Codes<CultureKind>();

    private static readonly string[] Media = Codes<MediumKind>();

    private static readonly string[] Chambers = Codes<ChamberKind>();

    private static readonly string[] Methods = ["glance", "beam", "full", "aliquot", "photo"];

    private static readonly string[] Devices =
    [
        "refractometer",
        "hydrometer",
        "swing-arm-hydrometer",
        "conductivity-meter",
        "thermometer",
        "ph-meter",
        "test-kit",
        "oxygen-meter",
        "scale",
    ];

    private static readonly Dimension[] Measured =
    [
        Dimension.Temperature,
        Dimension.Salinity,
        Dimension.Acidity,
        Dimension.TotalAmmonia,
        Dimension.UnionisedAmmonia,
        Dimension.Nitrite,
        Dimension.Nitrate,
        Dimension.Oxygen,
        Dimension.Alkalinity,
        Dimension.Hardness,
        Dimension.Chlorine,
        Dimension.CellDensity,
        Dimension.Light,
    ];

    private static readonly Dimension[] Checked =
    [
        Dimension.Salinity,
        Dimension.Temperature,
        Dimension.Acidity,
        Dimension.Oxygen,
        Dimension.Mass,
    ];

    /// <summary>The groups, in the order of the list.</summary>
    public static IReadOnlyList<FormGroup> Groups { get; } =
    [
        new(
            "water",
            new Form(
                "temperature",
                "reading taken",
                TideEntryMark.Reading,
                Amount("value", true, Dimension.Temperature),
                Vessel("vessel"),
                Instrument("instrument")
            )
            {
                Fits = body => UnitOf(body["value"]) == Dimension.Temperature,
                InTitle = ["vessel"],
            },
            new Form(
                "reading",
                "reading taken",
                TideEntryMark.Reading,
                Amount("value", true, Measured),
                Vessel("vessel"),
                Instrument("instrument"),
                Amount("sampleTemperature", false, Dimension.Temperature),
                new TickField("again")
            )
            {
                InTitle = ["vessel"],
            },
            new Form(
                "topped-up",
                "water moved",
                TideEntryMark.TopUp,
                Vessel("to", true),
                Volume("volume"),
                new TickField("toLine"),
                Salinity("salinity"),
                Temperature("temperature")
            )
            {
                OneOf = ["volume", "toLine"],
                Fits = body => Moves(body, from: false, to: true) && body["mix"] is null,
            },
            new Form(
                "poured",
                "water moved",
                TideEntryMark.WaterChange,
                Vessel("from", true),
                Vessel("to", true),
                Volume("volume", true)
            )
            {
                InTitle = ["from", "to"],
                Fits = body => Moves(body, from: true, to: true),
            },
            new Form(
                "evaporated",
                "water moved",
                TideEntryMark.WaterChange,
                Vessel("from", true),
                Volume("volume", true),
                new FixedField("evaporated", true)
            )
            {
                Fits = body => body["evaporated"]?.GetValue<bool>() == true,
            },
            new Form(
                "drawn-off",
                "water moved",
                TideEntryMark.WaterChange,
                Vessel("from", true),
                Volume("volume", true)
            )
            {
                Cares = [Release],
                Fits = body => Moves(body, from: true, to: false),
            },
            new Form(
                "salt-dissolved",
                "water moved",
                TideEntryMark.WaterChange,
                Vessel("to", true),
                Amount("mix", true, Dimension.Mass)
            )
            {
                Fits = body => body["mix"] is not null,
            },
            new Form(
                "filled",
                "vessel filled",
                TideEntryMark.WaterChange,
                Vessel("vessel", true),
                new NewField("fill"),
                Volume("volume", true),
                Salinity("salinity"),
                Temperature("temperature"),
                Vessel("from")
            ),
            new Form(
                "siphoned",
                "vessel siphoned",
                TideEntryMark.WaterChange,
                Vessel("vessel", true),
                Volume("volume"),
                new CountField("larvaeReturned")
            )
            {
                Cares = [Release],
            },
            new Form("emptied", "vessel emptied", TideEntryMark.Ended, Vessel("vessel", true))
            {
                Cares = [Release],
            }
        ),
        new(
            "food",
            new Form(
                "fed",
                "vessel fed",
                TideEntryMark.Fed,
                Vessel("vessel", true),
                new OneOfField("food", true, Foods),
                Volume("volume"),
                Amount("mass", false, Dimension.Mass),
                Vessel("from"),
                Amount("density", false, Dimension.CellDensity),
                Salinity("salinity"),
                new TextField("feed")
            ),
            new Form(
                "looked",
                "vessel looked at",
                TideEntryMark.Note,
                Vessel("vessel", true),
                new OneOfField("water", false, Looks),
                new OneOfField("film", false, Covers)
            )
            {
                OneOf = ["water", "film"],
            },
            new Form(
                "light",
                "light changed",
                TideEntryMark.Light,
                Vessel("vessel", true),
                new AnswerField("on", true),
                new NumberField("hoursPerDay", 0, 24),
                Amount("illuminance", false, Dimension.Light)
            )
            {
                Cares = [Mains],
            }
        ),
        new(
            "cultures",
            new Form(
                "cells-counted",
                "cells counted",
                TideEntryMark.Reading,
                Vessel("vessel", true),
                new OneOfField("chamber", true, Chambers),
                new SquaresField("squares"),
                new NumberField("dilution", 1e-6, 1e9),
                Volume("squareVolume")
            ),
            new Form(
                "harvested",
                "culture harvested",
                TideEntryMark.WaterChange,
                Vessel("vessel", true),
                Volume("volume"),
                Amount("density", false, Dimension.CellDensity),
                new TextField("note")
            )
            {
                Cares = [Release],
            },
            new Form(
                "culture",
                "culture described",
                TideEntryMark.Note,
                Vessel("vessel", true),
                new OneOfField("alga", true, Algae),
                new TextField("name"),
                new OneOfField("medium", false, Media),
                new NumberField("mediumStrength", 0, 100),
                new MomentField("started"),
                Volume("inoculum"),
                Amount("inoculumDensity", false, Dimension.CellDensity),
                Vessel("from")
            ),
            new Form(
                "feed",
                "feed described",
                TideEntryMark.Note,
                new TextField("name", true),
                new OneOfField("food", true, Foods),
                Share("protein"),
                Share("moisture"),
                Share("ash"),
                new TextField("note")
            )
        ),
        new(
            "larvae",
            new Form(
                "hatching",
                "hatching seen",
                TideEntryMark.Crossing,
                Brood("brood", true),
                Vessel("vessel"),
                new TickField("over")
            ),
            new Form(
                "collected",
                "collection made",
                TideEntryMark.Crossing,
                new NewField("collection"),
                Brood("brood", true),
                Vessel("from"),
                Vessel("into"),
                new CountField("number"),
                Method("method")
            ),
            new Form(
                "crossed",
                "crossing made",
                TideEntryMark.Crossing,
                new NewField("cohort"),
                Brood("brood", true),
                Vessel("to", true),
                new ThingsField("collections", Thing.Collection),
                new CountField("number"),
                Method("method"),
                Vessel("source"),
                Salinity("pouredSalinity"),
                Volume("entered"),
                Salinity("enteredSalinity"),
                Amount("brackishMinutes", false, Dimension.Duration)
            )
            {
                Cares = ["care.write.phone", Mains],
                InTitle = ["brood", "to"],
            },
            new Form(
                "counted",
                "count made",
                TideEntryMark.Count,
                Vessel("vessel", true),
                Method("method", true),
                new SamplesField("samples"),
                Cohort("cohort"),
                new AnswerField("inDark"),
                new TickField("again")
            ),
            new Form(
                "staged",
                "stage sample taken",
                TideEntryMark.StageSample,
                Vessel("vessel", true),
                new StagesField("stages"),
                Cohort("cohort")
            ),
            new Form(
                "measured",
                "larvae measured",
                TideEntryMark.Reading,
                Vessel("vessel", true),
                new MeasuredField("micrometres"),
                new MeasuredField("beatsPerMinute"),
                new MeasuredField("swimmingPercent"),
                Cohort("cohort"),
                new OneOfField("scale", false, "ruler", "taps", "number")
            ),
            new Form(
                "dead",
                "dead removed",
                TideEntryMark.Dead,
                Vessel("vessel", true),
                new CountField("number", true)
            ),
            new Form(
                "larvae-moved",
                "cohorts moved",
                TideEntryMark.Moved,
                Vessel("from", true),
                Vessel("to", true),
                new ThingsField("cohorts", Thing.Cohort),
                new CountField("number")
            )
            {
                InTitle = ["from", "to"],
            },
            new Form(
                "split",
                "cohort split",
                TideEntryMark.Moved,
                Cohort("cohort", true),
                Vessel("from", true),
                Vessel("to", true),
                new CountField("number")
            ),
            new Form(
                "merged",
                "cohorts merged",
                TideEntryMark.Moved,
                Vessel("vessel", true),
                new ThingsField("cohorts", Thing.Cohort, true),
                Cohort("into", true)
            ),
            new Form(
                "settled",
                "settlement seen",
                TideEntryMark.Settled,
                Vessel("vessel", true),
                new CountField("number")
            ),
            new Form(
                "returned",
                "juveniles returned",
                TideEntryMark.Returned,
                Vessel("from", true),
                Vessel("to", true),
                new CountField("number"),
                Cohort("cohort"),
                Amount("minutes", false, Dimension.Duration)
            )
            {
                InTitle = ["from", "to"],
                Cares = ["care.write.phone"],
            },
            new Form(
                "juveniles-counted",
                "juveniles counted",
                TideEntryMark.Count,
                Vessel("vessel", true),
                new CountField("number", true),
                Method("method", true)
            ),
            new Form(
                "given-away",
                "juveniles given away",
                TideEntryMark.Ended,
                Vessel("vessel", true),
                new CountField("number", true),
                new TextField("to")
            )
            {
                Cares = [Release],
            },
            new Form(
                "heard",
                "survival heard",
                TideEntryMark.Note,
                Vessel("vessel", true),
                new TextField("card", true),
                new CountField("alive", true),
                new CountField("received"),
                new TextField("note")
            )
        ),
        new(
            "females",
            new Form(
                "berried",
                "animal seen berried",
                TideEntryMark.Note,
                Animal("animal", true, Thing.Female),
                new NewField("brood"),
                new TextField("name"),
                new TickField("ageUnknown")
            ),
            new Form(
                "eggs",
                "eggs observed",
                TideEntryMark.Note,
                Brood("brood", true),
                new AnswerField("carried"),
                new AnswerField("eyed"),
                new OneOfField("colour", false, "dark", "lighter", "pale"),
                new AnswerField("saddle")
            ),
            new Form(
                "seen-empty",
                "animal seen empty",
                TideEntryMark.Note,
                Animal("animal", true, Thing.Female)
            ),
            new Form(
                "isolated",
                "animal isolated",
                TideEntryMark.Moved,
                Animal("animal", true, Thing.Female),
                Vessel("to", true),
                Brood("brood")
            ),
            new Form(
                "back",
                "animal returned",
                TideEntryMark.Moved,
                Animal("animal", true),
                Vessel("to", true)
            ),
            new Form(
                "dropped",
                "eggs dropped",
                TideEntryMark.Dead,
                Brood("brood", true),
                Vessel("vessel"),
                new CountField("number"),
                new TickField("all", true)
            ),
            new Form("moulted", "animal moulted", TideEntryMark.Note, Animal("animal", true)),
            new Form(
                "moved",
                "animal moved",
                TideEntryMark.Moved,
                Animal("animal", true),
                Vessel("to", true)
            ),
            new Form(
                "died",
                "animal died",
                TideEntryMark.Dead,
                Animal("animal", true),
                new TextField("cause")
            ),
            new Form(
                "acquired",
                "animal acquired",
                TideEntryMark.Note,
                new NewField("animal"),
                new TextField("name", true),
                new OneOfField("sex", false, "female", "male"),
                new TextField("species"),
                Vessel("vessel"),
                new TextField("source")
            )
            {
                Cares = ["care.write.collecting", "care.write.quarantine"],
            }
        ),
        new(
            "vessels",
            new Form(
                "set-up",
                "vessel set up",
                TideEntryMark.Note,
                new NewField("vessel"),
                new TextField("name", true),
                new OneOfField("role", true, Roles),
                Volume("capacity"),
                new TextField("species")
            ),
            new Form(
                "air",
                "air changed",
                TideEntryMark.Light,
                Vessel("vessel", true),
                new AnswerField("on", true),
                new TextField("note")
            )
            {
                Cares = [Mains],
            },
            new Form(
                "heater",
                "heater changed",
                TideEntryMark.Light,
                Vessel("vessel", true),
                new AnswerField("on", true),
                Temperature("setting")
            )
            {
                Cares = [Mains],
            },
            new Form(
                "filter",
                "filter changed",
                TideEntryMark.Light,
                Vessel("vessel", true),
                new AnswerField("on", true),
                new TextField("note")
            )
            {
                Cares = [Mains],
            },
            new Form(
                "disinfected",
                "vessel disinfected",
                TideEntryMark.WaterChange,
                Vessel("vessel", true),
                new TextField("agent", true),
                Amount("dose", false, Dimension.Chlorine),
                Amount("residual", false, Dimension.Chlorine)
            )
            {
                Cares = ["care.write.bleach", "care.write.zero"],
            }
        ),
        new(
            "instruments",
            new Form(
                "calibrated",
                "instrument calibrated",
                TideEntryMark.Reading,
                Instrument("instrument", true),
                Amount("standard", true, Checked),
                new TickField("sodiumChloride"),
                Amount("shown", true, Checked),
                Temperature("temperature"),
                new TickField("adjusted"),
                new MomentField("holdsFrom")
            ),
            new Form(
                "described",
                "instrument described",
                TideEntryMark.Note,
                new NewField("instrument"),
                new TextField("name", true),
                new OneOfField("kind", true, Devices),
                new ScaleField("scale"),
                new AnswerField("compensated"),
                new NumberField("resolution", 0, 1e6),
                new NumberField("error", 0, 1e6),
                new NumberField("glassCelsius", -273.15, 1000),
                new AnswerField("zeroedWithWater"),
                new OneOfField("phScale", false, "nbs", "total")
            )
        ),
        new(
            "house",
            new Form(
                "run-started",
                "run started",
                TideEntryMark.Note,
                new NewField("run"),
                Brood("brood", true),
                new TextField("name", true),
                new TextField("species")
            ),
            new Form(
                "run-ended",
                "run ended",
                TideEntryMark.Ended,
                new ThingField("run", Thing.Run, true),
                new OneOfField("end", true, "home", "given-up"),
                new TextField("note")
            ),
            new Form("power-failed", "power failed", TideEntryMark.Note, new TextField("note"))
            {
                InTitle = [],
            },
            new Form("power-restored", "power restored", TideEntryMark.Note, new TextField("note"))
            {
                InTitle = [],
            },
            new Form(
                "away",
                "keeper left",
                TideEntryMark.Note,
                new MomentField("until"),
                new TextField("helper")
            )
            {
                InTitle = [],
            },
            new Form("home", "keeper returned", TideEntryMark.Note) { InTitle = [] }
        ),
        new(
            "note",
            new Form(
                "note",
                "note written",
                TideEntryMark.Note,
                new TextField("text", true, Long: true),
                Vessel("vessel"),
                Animal("animal"),
                new ThingField("run", Thing.Run)
            )
        ),
    ];

    /// <summary>Every form.</summary>
    public static IReadOnlyList<Form> All { get; } = [.. Groups.SelectMany(group => group.Forms)];

    /// <summary>The form of an address.</summary>
    public static Form? Find(string? code) => All.FirstOrDefault(form => form.Code == code);

    /// <summary>The form that tells a body of a kind.</summary>
    public static Form? Of(string kind, JsonObject body) =>
        All.FirstOrDefault(form => form.Kind == kind && form.Fits(body));

    private static bool Moves(JsonObject body, bool from, bool to) =>
        body["from"] is not null == from && body["to"] is not null == to;

    private static Dimension? UnitOf(JsonNode? number) =>
        UnitCode.Find(number?["unit"]?.ToString() ?? "")?.Dimension;

    private static AmountField Amount(string name, bool needed, params Dimension[] dimensions) =>
        new(name, needed, dimensions);

    private static AmountField Volume(string name, bool needed = false) =>
        Amount(name, needed, Dimension.Volume);

    private static AmountField Share(string name) => Amount(name, false, Dimension.Share);

    private static AmountField Salinity(string name) => Amount(name, false, Dimension.Salinity);

    private static AmountField Temperature(string name) => Amount(name, false, Dimension.Temperature);

    private static ThingField Vessel(string name, bool needed = false) => new(name, Thing.Vessel, needed);

    private static ThingField Animal(string name, bool needed = false, Thing of = Thing.Animal) =>
        new(name, of, needed);

    private static ThingField Brood(string name, bool needed = false) => new(name, Thing.Brood, needed);

    private static ThingField Cohort(string name, bool needed = false) => new(name, Thing.Cohort, needed);

    private static ThingField Instrument(string name, bool needed = false) =>
        new(name, Thing.Instrument, needed);

    private static string[] Codes<T>()
        where T : struct, Enum =>
        [.. Enum.GetNames<T>().Select(System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName)];

    private static OneOfField Method(string name, bool needed = false) => new(name, needed, Methods);
}
