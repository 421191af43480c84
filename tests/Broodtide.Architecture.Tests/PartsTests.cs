using System.Text.Json.Nodes;
using Broodtide.Parts;

namespace Broodtide.Architecture.Tests;

/// <summary>What is handed out: the list of its parts and the licences that are allowed.</summary>
public sealed class PartsTests
{
    private static readonly PartRules Rules = PartRules.From(
        File.ReadAllText(Path.Combine(RepositoryFiles.Root, "eng", "licences.json"))
    );

    [Fact]
    public void Parts_of_licences_that_are_allowed_are_refused_nowhere()
    {
        var list = List(Part("Kind", "1.0", "MIT"), Part("Other", "2.0", "Apache-2.0"));
        Assert.Equal(2, list.Parts.Count);
        Assert.Empty(list.Refused(Rules.Allowed));
    }

    [Fact]
    public void A_planted_licence_that_binds_others_is_refused_by_name()
    {
        var list = List(Part("Kind", "1.0", "MIT"), Part("Planted", "3.1", "GPL-3.0-only"));
        Assert.Equal(["Planted 3.1: GPL-3.0-only"], list.Refused(Rules.Allowed));
    }

    [Fact]
    public void A_part_that_tells_no_licence_is_refused()
    {
        Assert.Equal(
            ["Silent 1.0: no licence told"],
            List(Part("Silent", "1.0", null)).Refused(Rules.Allowed)
        );
    }

    [Fact]
    public void A_licence_that_somebody_read_is_told_for_that_part_alone()
    {
        var list = List(Part("Silent", "1.0", null), Part("Also silent", "1.0", null));
        list.Tell(new Dictionary<string, string> { ["Silent"] = "MIT" });
        Assert.Equal(["Also silent 1.0: no licence told"], list.Refused(Rules.Allowed));
    }

    [Fact]
    public void What_only_the_build_needs_is_not_handed_out()
    {
        var analyser = Part("Analyser", "1.0", "MIT");
        analyser["scope"] = "excluded";
        Assert.Empty(List(analyser).Parts);
    }

    [Fact]
    public void The_order_and_the_hour_of_the_build_leave_no_mark()
    {
        var (one, other) = (Part("A", "1.0", "MIT"), Part("B", "1.0", "MIT"));
        Assert.Equal(List(one, other).ToJson(), List("2031-01-01T00:00:00Z", other, one).ToJson());
    }

    [Fact]
    public void The_runtime_that_comes_along_is_named()
    {
        var list = List(Part("A", "1.0", "MIT"));
        list.AddRuntimes(
            """{"libraries":{"A/1.0":{},"runtimepack.Microsoft.NETCore.App.Runtime.linux-x64/10.0.12":{}}}""",
            Rules.Runtime
        );
        Assert.Contains(
            "Microsoft.NETCore.App.Runtime.linux-x64 | 10.0.12 | MIT",
            list.ToMarkdown(),
            StringComparison.Ordinal
        );
        Assert.Empty(list.Refused(Rules.Allowed));
    }

    private static PartList List(params JsonObject[] parts) => List("2026-11-26T12:00:00Z", parts);

    private static PartList List(string made, params JsonObject[] parts) =>
        PartList.Of(
            [
                new JsonObject
                {
                    ["bomFormat"] = "CycloneDX",
                    ["metadata"] = new JsonObject
                    {
                        ["timestamp"] = made,
                        ["component"] = new JsonObject { ["name"] = "x" },
                    },
                    ["components"] = new JsonArray([.. parts.Select(part => (JsonNode)part.DeepClone())]),
                }.ToJsonString(),
            ],
            "Broodtide",
            "0.1.0",
            DateTimeOffset.UnixEpoch
        );

    private static JsonObject Part(string name, string version, string? licence) =>
        new()
        {
            ["type"] = "library",
            ["name"] = name,
            ["version"] = version,
            ["licenses"] = licence is null
                ? new JsonArray()
                : new JsonArray(new JsonObject { ["license"] = new JsonObject { ["id"] = licence } }),
        };
}
