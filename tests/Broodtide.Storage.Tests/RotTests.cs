using Broodtide.Durability.Rot;

namespace Broodtide.Storage.Tests;

/// <summary>A short form of <c>eng/trust rot</c>: bytes of each kind of file changed by chance.</summary>
public sealed class RotTests
{
    public static TheoryData<string> Kinds => [.. RotKinds.All.Select(kind => kind.Name)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Changed_bytes_are_found_and_named_and_what_can_still_be_had_is_what_was_put_in(
        string name
    )
    {
        var kind = RotKinds.All.Single(one => one.Name == name);
        var outcome = await RotProof.RunAsync(kind, times: 12, seed: 5);
        Assert.Equal(12, outcome.Found + outcome.Harmless + outcome.Silent);
        Assert.True(outcome.Found > 0 || name is "mark of a life");
        Assert.Equal(0, outcome.WronglySaved);
        Assert.True(outcome.Silent == 0 || !kind.MustBeFound, $"{outcome.Silent} were not found");
    }
}
