using System.Net;
using Broodtide.Server.Operating;
using Broodtide.Server.Tests.People;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Microsoft.Extensions.Hosting;

namespace Broodtide.Server.Tests.Operating;

public sealed class HealthTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(HealthApi.Live, "alive")]
    [InlineData(HealthApi.Ready, "ready")]
    public async Task Whoever_asks_learns_one_word_and_nothing_of_the_house(string path, string word)
    {
        await using var house = await LivingHouse.Start();
        using var guest = house.Guest();
        using var answer = await guest.Get(path);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal($$"""{"state":"{{word}}"}""", await answer.Content.ReadAsStringAsync(Stop));
        Assert.Contains("no-store", answer.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_journal_that_does_not_answer_is_not_ready_but_lives()
    {
        await using var house = await LivingHouse.Start();
        using var guest = house.Guest();
        await house.LoseTheJournal();
        using var ready = await guest.Get(HealthApi.Ready);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, ready.StatusCode);
        Assert.Equal("""{"state":"store-silent"}""", await ready.Content.ReadAsStringAsync(Stop));
        using var live = await guest.Get(HealthApi.Live);
        Assert.Equal(HttpStatusCode.OK, live.StatusCode);
    }

    [Fact]
    public async Task A_server_that_was_told_to_stop_is_not_ready()
    {
        await using var house = await LivingHouse.Start();
        var check = ActivatorUtilities.CreateInstance<Readiness>(house.App.Services);
        Assert.Equal(HealthStatus.Healthy, (await check.CheckHealthAsync(new(), Stop)).Status);
        house.App.Services.GetRequiredService<IHostApplicationLifetime>().StopApplication();
        Assert.Equal("stopping", (await check.CheckHealthAsync(new(), Stop)).Description);
    }
}
