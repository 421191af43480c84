using Broodtide.Doors.Tests.Kit;

namespace Broodtide.Doors.Tests;

public sealed class TestedTemperaturesTests
{
    [Theory]
    // Larvae were tested from 20 to 32 °C (Kondo, Hamasaki and Dan 2021); days to hatching at 25.5 °C alone (Cao et al. 2020).
    [InlineData("Jar A", "18C", "alive \"Brood 2\"", "no larvae were tested")]
    [InlineData("Jar A", "33C", "alive \"Brood 2\"", "no larvae were tested")]
    [InlineData("River tank", "20C", "hatch \"Brood 3\"", "25.5 °C alone")]
    public async Task What_is_drawn_on_beyond_tried_temperatures_says_so(
        string vessel,
        string celsius,
        string line,
        string said
    )
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        Assert.DoesNotContain(
            said,
            (await kitchen.DoAsync(Kitchen.Split(line))).Out,
            StringComparison.Ordinal
        );
        await kitchen.DoAsync("write", "temperature", vessel, celsius, "--yes");
        Assert.Contains(said, (await kitchen.DoAsync(Kitchen.Split(line))).Out, StringComparison.Ordinal);
    }
}
