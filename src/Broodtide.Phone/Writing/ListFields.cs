using System.Text.Json.Nodes;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Phone.Writing;

/// <summary>How many of a sample stood in each stage.</summary>
public sealed record StagesField(string Name) : Field(Name, true)
{
    public override void Prefill(JsonNode told, Typed typed)
    {
        foreach (var tally in told.AsArray())
        {
            var stage = tally!["stage"]!.ToString();
            typed[Typed.Name(Name, stage)] = tally["number"]!.ToString();
            typed[Name] = Typed.Yes;
        }
    }

    public override string Tell(JsonNode told, Teller teller) =>
        string.Join(
            ", ",
            told.AsArray().Select(tally => teller.Words["said.stage", tally!["number"]!, tally["stage"]!])
        );

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making)
    {
        var tallies = new JsonArray();
        foreach (var stage in Stages)
        {
            var name = Typed.Name(Name, stage);
            if (typed.IsEmpty(name))
            {
                continue;
            }

            var (count, reason) = CountField.Whole(typed[name], stage);
            if (reason is not null)
            {
                return No(reason);
            }

            tallies.Add((JsonNode)new JsonObject { ["stage"] = stage, ["number"] = count });
        }

        return tallies.Count > 0
            ? Member(tallies)
            : No(new Remark("field-needed", new Argument("field", Name)));
    }

    /// <summary>As many zoeal stages as any species has, the post-larva last.</summary>
    public static IReadOnlyList<string> Stages { get; } =
    [
        .. Enumerable
            .Range(1, Workbench.Species.SpeciesProfiles.Known.Max(species => species.Zoeae))
            .Select(order => $"Z{order}"),
        "PL",
    ];

    protected override bool IsLeftOut(Typed typed) => false;
}

/// <summary>The samples of a count: seen in each, and its volume unless it was the whole vessel.</summary>
public sealed record SamplesField(string Name) : Field(Name, true)
{
    /// <summary>Samples that a form has room for.</summary>
    public const int Most = 8;

    private static readonly Dimension[] Volume = [Dimension.Volume];

    public string Seen(int sample) => $"{Name}.{sample}.seen";

    public string VolumeOf(int sample) => $"{Name}.{sample}.volume";

    public string UnitOf(int sample) => $"{Name}.{sample}.unit";

    public override void Prefill(JsonNode told, Typed typed)
    {
        var at = 0;
        foreach (var sample in told.AsArray().Take(Most))
        {
            typed[Seen(at)] = sample!["seen"]!.ToString();
            typed[VolumeOf(at)] = sample["volume"]?["typed"]?.ToString() ?? "";
            typed[UnitOf(at)] = sample["volume"]?["unit"]?.ToString() ?? "";
            at++;
        }
    }

    public override string Tell(JsonNode told, Teller teller) =>
        string.Join(
            ", ",
            told.AsArray()
                .Select(sample =>
                    sample!["volume"] is { } volume
                        ? teller.Words["said.sample", sample["seen"]!, teller.Amount(volume)]
                        : teller.Words["said.seen", sample["seen"]!]
                )
        );

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making)
    {
        var samples = new JsonArray();
        for (var at = 0; at < Most; at++)
        {
            if (typed.IsEmpty(Seen(at)))
            {
                continue;
            }

            var (count, reason) = CountField.Whole(typed[Seen(at)], Name);
            if (reason is not null)
            {
                return No(reason);
            }

            var sample = new JsonObject { ["seen"] = count };
            if (!typed.IsEmpty(VolumeOf(at)))
            {
                var (volume, wrong) = AmountField.Read(typed[VolumeOf(at)], typed[UnitOf(at)], Name, Volume);
                if (wrong is not null)
                {
                    return No(wrong);
                }

                sample["volume"] = volume;
            }

            samples.Add((JsonNode)sample);
        }

        return samples.Count > 0
            ? Member(samples)
            : No(new Remark("field-needed", new Argument("field", Name)));
    }

    protected override bool IsLeftOut(Typed typed) => false;
}

/// <summary>Cells seen in squares of a chamber: 52 48 50, or 212/4 for 212 cells in 4 squares.</summary>
public sealed record SquaresField(string Name) : Field(Name, true)
{
    public override void Prefill(JsonNode told, Typed typed) => typed[Name] = Text(told);

    public override string Tell(JsonNode told, Teller teller) => teller.Said(Name, Text(told));

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making)
    {
        var squares = new JsonArray();
        foreach (var text in typed[Name].Split([' ', '+', ';'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (text.Split('/') is not [var cells, .. var rest] || rest.Length > 1)
            {
                return No(new Remark("squares-not-read", new("field", Name), new("typed", text)));
            }

            var (count, reason) = CountField.Whole(cells, Name);
            var (number, wrong) = rest is [var of] ? CountField.Whole(of, Name) : (1, null);
            if ((reason ?? wrong) is { } no)
            {
                return No(no);
            }

            var square = new JsonObject { ["cells"] = count };
            if (rest.Length > 0)
            {
                square["number"] = number;
            }

            squares.Add((JsonNode)square);
        }

        return Member(squares);
    }

    private static string Text(JsonNode told) =>
        string.Join(
            ' ',
            told.AsArray()
                .Select(square =>
                    square!["number"] is { } number ? $"{square["cells"]}/{number}" : $"{square["cells"]}"
                )
        );
}

/// <summary>Measured values, one for each larva: 2410, or 2380..2410..2440 with its bounds.</summary>
public sealed record MeasuredField(string Name) : Field(Name, false)
{
    public override void Prefill(JsonNode told, Typed typed) => typed[Name] = Text(told);

    public override string Tell(JsonNode told, Teller teller) =>
        teller.Said(Name, string.Join(" + ", told.AsArray().Select(value => $"{value!["middle"]}")));

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making)
    {
        var values = new JsonArray();
        foreach (var text in typed[Name].Split([' ', '+', ';'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (MeasuredValue.Read(text) is not { } read)
            {
                return No(new Remark("measured-not-read", new("field", Name), new("typed", text)));
            }

            var value = new JsonObject { ["middle"] = read.Middle };
            if (read is { Low: { } low, High: { } high })
            {
                (value["low"], value["high"]) = (low, high);
            }

            values.Add((JsonNode)value);
        }

        return Member(values);
    }

    private static string Text(JsonNode told) =>
        string.Join(
            ' ',
            told.AsArray()
                .Select(value =>
                    new MeasuredValue(
                        value!["middle"]!.GetValue<double>(),
                        value["low"]?.GetValue<double>(),
                        value["high"]?.GetValue<double>()
                    ).ToString()
                )
        );
}
