using System.Text.Json;
using Broodtide.Cli.Door;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Doors.Tests.Kit;

/// <summary>What one call gave.</summary>
internal sealed record Outcome(int Code, string Out, string Error)
{
    public JsonElement Json => JsonDocument.Parse(Out).RootElement;
}

/// <summary>A folder of its own with a journal in it, a clock that stands, and the command line started whole.</summary>
internal sealed class Kitchen : IDisposable
{
    public static readonly Instant Now = Instant.FromUtc(2026, 3, 10, 19, 0);

    private readonly FakeClock _clock = new(Now);
    private int _ids;

    public Kitchen()
    {
        Folder = Directory.CreateTempSubdirectory("broodtide-door-").FullName;
        Journal = Path.Combine(Folder, "journal.broodtide");
    }

    public string Folder { get; }

    public string Journal { get; set; }

    public Dictionary<string, string> Variables { get; } = new(StringComparer.Ordinal);

    public FakeClock Clock => _clock;

    /// <summary>A kitchen with the invented journal in it.</summary>
    public static async Task<Kitchen> WithDemoAsync()
    {
        var kitchen = new Kitchen();
        var outcome = await kitchen.RunAsync("demo", kitchen.Journal);
        Assert.Equal(0, outcome.Code);
        return kitchen;
    }

    public string At(string name) => Path.Combine(Folder, name);

    public async Task<Outcome> RunAsync(params string[] args)
    {
        var (output, error) = (new StringWriter { NewLine = "\n" }, new StringWriter { NewLine = "\n" });
        var code = await CommandLine.RunAsync(
            args,
            new Surroundings
            {
                Out = output,
                Error = error,
                Clock = _clock,
                Zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"],
                Variable = name => name == "BROODTIDE_JOURNAL" ? Journal : Variables.GetValueOrDefault(name),
                NewId = () => new Guid($"0195557c-0000-7000-8000-{0xa00000 + ++_ids:x12}"),
                UserName = "ada",
                DataFolder = Folder,
            },
            TestContext.Current.CancellationToken
        );
        return new(
            code,
            output.ToString().Replace(Folder, "FOLDER", StringComparison.Ordinal),
            error.ToString().Replace(Folder, "FOLDER", StringComparison.Ordinal)
        );
    }

    /// <summary>A call that must be done.</summary>
    public async Task<Outcome> DoAsync(params string[] args)
    {
        var outcome = await RunAsync(args);
        Assert.True(
            outcome.Code == 0,
            $"{string.Join(' ', args)}: {outcome.Code}\n{outcome.Out}\n{outcome.Error}"
        );
        Assert.Empty(outcome.Error);
        return outcome;
    }

    /// <summary>A call as it is typed, quotes and all.</summary>
    public Task<Outcome> TypeAsync(string line) => RunAsync(Split(line));

    public static string[] Split(string line)
    {
        var words = new List<string>();
        var word = new System.Text.StringBuilder();
        var (quoted, begun) = (false, false);
        foreach (var c in line)
        {
            if (c == '"')
            {
                (quoted, begun) = (!quoted, true);
            }
            else if (c == ' ' && !quoted)
            {
                if (begun || word.Length > 0)
                {
                    words.Add(word.ToString());
                }

                word.Clear();
                begun = false;
            }
            else
            {
                word.Append(c);
            }
        }

        if (begun || word.Length > 0)
        {
            words.Add(word.ToString());
        }

        return [.. words];
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
