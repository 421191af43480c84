using System.Net;
using System.Net.Http.Headers;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Broodtide.Server.Tests.People;

/// <summary>Every door of the server, and who may pass it.</summary>
public sealed class GuardTests
{
    private const string Id = "019ab5d0-5c00-7000-8000-0000deadbeef";

    // What anybody may ask: the app itself, and the ways of coming in.
    private static readonly string[] ForAnybody =
    [
        "/" + PeopleAddresses.Door,
        "/" + PeopleAddresses.Token,
        "/" + PeopleAddresses.First,
        "/" + PeopleAddresses.SignIn,
        "/" + PeopleAddresses.Invitation,
        "/" + PeopleAddresses.Join,
        "/api/calendar/{secret}.ics",
        "/api/house",
        "/health/live",
        "/health/ready",
        "/api/{**rest}",
        "/{*path:nonfile}",
    ];

    [Fact]
    public async Task Every_endpoint_names_who_may_use_it_or_stands_on_the_list_for_anybody()
    {
        await using var house = await LivingHouse.Start();
        var endpoints = house
            .App.Services.GetServices<EndpointDataSource>()
            .SelectMany(source => source.Endpoints)
            .OfType<RouteEndpoint>()
            .Where(endpoint => !IsFile(endpoint))
            .ToList();

        Assert.NotEmpty(endpoints);
        var anybody = endpoints
            .Where(endpoint => endpoint.Metadata.GetMetadata<IAllowAnonymous>() is not null)
            .Select(endpoint => endpoint.RoutePattern.RawText!)
            // Files of the app that are not published yet.
            .Where(path => path != "/{**path:file}")
            .Distinct()
            .Order(StringComparer.Ordinal);
        Assert.Equal(ForAnybody.Order(StringComparer.Ordinal), anybody);
        Assert.Empty(
            endpoints
                .Where(endpoint =>
                    endpoint.Metadata.GetMetadata<IAllowAnonymous>() is null
                    && !endpoint
                        .Metadata.GetOrderedMetadata<IAuthorizeData>()
                        .Any(guard => guard.Policy is "reader" or "helper" or "keeper" or "owner")
                )
                .Select(endpoint => endpoint.RoutePattern.RawText)
        );
    }

    // The files of the app, one endpoint each; they are the same for everybody.
    private static bool IsFile(RouteEndpoint endpoint) =>
        endpoint.Metadata.Any(it => it.GetType().Name == "StaticAssetDescriptor");

    public static TheoryData<string, string, Role> Guarded =>
        new()
        {
            { "GET", "api/calendar", Role.Reader },
            { "POST", "api/calendar", Role.Reader },
            { "DELETE", "api/calendar", Role.Reader },
            { "POST", "api/journal/meet", Role.Reader },
            { "POST", "api/journal/lacking", Role.Reader },
            { "POST", "api/journal/give", Role.Helper },
            { "POST", "api/journal/bring", Role.Helper },
            { "GET", "api/backups", Role.Owner },
            { "GET", "api/sharing", Role.Owner },
            { "POST", "api/sharing/let-in", Role.Owner },
            { "POST", "api/sharing/discard", Role.Owner },
            { "POST", "api/sharing/revoke", Role.Owner },
            { "POST", "api/sharing/refill", Role.Owner },
            { "POST", "api/sharing/refill/close", Role.Owner },
            { "POST", "api/photos/lacking", Role.Reader },
            { "PUT", "api/photos/{hash}", Role.Helper },
            { "GET", "api/photos/{hash}", Role.Reader },
            { "POST", "api/looking/count", Role.Helper },
            { "GET", PeopleAddresses.MySessions, Role.Reader },
            { "POST", $"{PeopleAddresses.MySessions}/{Id}/end", Role.Reader },
            { "POST", PeopleAddresses.MyPassphrase, Role.Reader },
            { "POST", PeopleAddresses.MyWays, Role.Reader },
            { "GET", PeopleAddresses.Root, Role.Owner },
            { "POST", PeopleAddresses.Invitations, Role.Owner },
            { "POST", $"{PeopleAddresses.Invitations}/{Id}/withdraw", Role.Owner },
            { "POST", $"{PeopleAddresses.Sessions}/{Id}/end", Role.Owner },
            { "POST", $"{PeopleAddresses.Root}/{Id}/role", Role.Owner },
            { "POST", $"{PeopleAddresses.Root}/{Id}/remove", Role.Owner },
            { "POST", PeopleAddresses.SignOut, Role.Reader },
        };

    [Fact]
    public async Task Each_door_opens_to_its_role_and_those_above_and_to_nobody_below()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        var guests = new Dictionary<Role, Guest>
        {
            [Role.Reader] = await house.Somebody(Role.Reader),
            [Role.Helper] = await house.Somebody(Role.Helper),
            [Role.Keeper] = await house.Somebody(Role.Keeper),
            [Role.Owner] = owner,
        };
        using var nobody = house.Guest();
        foreach (var (method, path, least) in Guarded.Select(row => row.Data))
        {
            Assert.Equal((method, path, 401), (method, path, await Status(nobody, method, path)));
            foreach (var (role, guest) in guests)
            {
                var status = await Status(guest, method, path);
                Assert.True(
                    role >= least
                        ? status is not (401 or 403) || path == PeopleAddresses.MyPassphrase
                        : status is 403,
                    $"{method} {path} as {role}: {status}"
                );
            }
        }

        foreach (var guest in guests.Values)
        {
            guest.Dispose();
        }
    }

    [Fact]
    public async Task The_table_of_doors_names_every_guarded_endpoint()
    {
        await using var house = await LivingHouse.Start();
        var named = Guarded
            .Select(row =>
                row.Data.Item1 + " /" + row.Data.Item2.Replace(Id, "{id:guid}", StringComparison.Ordinal)
            )
            .Order(StringComparer.Ordinal);
        var there = house
            .App.Services.GetServices<EndpointDataSource>()
            .SelectMany(source => source.Endpoints)
            .OfType<RouteEndpoint>()
            .Where(endpoint => !IsFile(endpoint) && endpoint.Metadata.GetMetadata<IAllowAnonymous>() is null)
            .Select(endpoint =>
                endpoint.Metadata.GetMetadata<IHttpMethodMetadata>()!.HttpMethods[0]
                + " "
                + endpoint.RoutePattern.RawText!.TrimEnd('/')
            )
            .Order(StringComparer.Ordinal);

        Assert.Equal(named, there);
    }

    [Fact]
    public async Task Without_the_word_of_the_house_nothing_is_changed_whoever_asks()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;

        Assert.Equal(
            (HttpStatusCode.BadRequest, "token-missing"),
            await owner.IsRefused(
                PeopleAddresses.Invitations,
                new("reader", null),
                PeopleJson.Default.InviteAsked,
                withToken: false
            )
        );
        using var lines = Json("");
        using var taken = await owner.Send(HttpMethod.Post, "api/journal/give", lines, false);
        Assert.Equal("token-missing", await Guest.CodeOf(taken));
        // The word of one browser is of no use in another.
        using var other = house.Guest();
        var word = await other.Reads(PeopleAddresses.Token, PeopleJson.Default.TokenSeen);
        owner.Headers.Add(PeopleAddresses.TokenHeader, word.Token);
        Assert.Equal(
            "token-missing",
            (
                await owner.IsRefused(
                    PeopleAddresses.Invitations,
                    new("reader", null),
                    PeopleJson.Default.InviteAsked,
                    withToken: false
                )
            ).Code
        );
    }

    [Fact]
    public async Task The_cookie_of_a_session_is_kept_from_scripts_and_from_other_sites_and_answers_are_not_stored()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        using var guest = house.Guest();
        using var answer = await guest.Post(
            PeopleAddresses.SignIn,
            new("Ada", LivingHouse.Passphrase),
            PeopleJson.Default.SignInAsked
        );

        var cookie = Assert.Single(
            answer.Headers.GetValues("Set-Cookie"),
            it => it.StartsWith("broodtide-session=", StringComparison.Ordinal)
        );
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("path=/;", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.True(answer.Headers.CacheControl?.NoStore);
    }

    [Fact]
    public async Task What_the_house_keeps_of_people_is_readable_by_its_own_user_alone()
    {
        var (house, owner) = await LivingHouse.Owned();
        await using var _ = house;
        using var __ = owner;
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Files have no such modes here.");
        }

        var files = house
            .Folder.GetDirectories("keys")
            .SelectMany(keys => keys.GetFiles())
            .Concat(house.Folder.GetFiles("house.db*"))
            .ToList();
        Assert.True(files.Count >= 2);
        Assert.All(
            files,
            file => Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, file.UnixFileMode)
        );
    }

    private static async Task<int> Status(Guest guest, string method, string path)
    {
        using var body = method == "GET" ? null : Json("{}");
        using var answer = await guest.Send(new HttpMethod(method), path, body, method != "GET");
        return (int)answer.StatusCode;
    }

    private static ByteArrayContent Json(string text)
    {
        var content = new ByteArrayContent(System.Text.Encoding.UTF8.GetBytes(text));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return content;
    }
}
