using Broodtide.Storage.Households;
using Broodtide.Storage.Postgres;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using NodaTime;

namespace Broodtide.Server.People;

/// <summary>Everything that keeps out who should not come in, put together from the framework's parts.</summary>
internal static class PeopleServices
{
    public static void AddPeople(
        this IServiceCollection services,
        ServerOptions options,
        HouseStore house,
        PostgresKeys? keys,
        IClock clock
    )
    {
        services
            .AddSingleton(clock)
            .AddSingleton(new HousePeople(house))
            .AddSingleton(new HouseWays(house))
            .AddSingleton(new HouseSessions(house))
            .AddSingleton(new HouseInvitations(house))
            .AddSingleton<Passphrases>()
            .AddSingleton<FirstStart>()
            .AddSingleton<SessionStore>();
        services.AddDataProtection().SetApplicationName("broodtide");
        services
            .AddOptions<KeyManagementOptions>()
            .Configure<ILoggerFactory>(
                (management, logging) =>
                    management.XmlRepository = keys is null
                        ? new KeyFolder(KeysOf(options), logging)
                        : new SharedKeys(keys)
            );
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(Cookie);
        services
            .AddOptions<CookieAuthenticationOptions>(CookieAuthenticationDefaults.AuthenticationScheme)
            .Configure<SessionStore>((cookie, store) => cookie.SessionStore = store);
        services.AddPolicies();
        Tries.Add(services);
        Tokens.Add(services, isAllHttps: options.Opening is not null);
    }

    private static DirectoryInfo KeysOf(ServerOptions options) =>
        new(Path.Combine(options.DataFolder.FullName, "keys"));

    private static void Cookie(CookieAuthenticationOptions cookie)
    {
        cookie.Cookie.Name = "broodtide-session";
        cookie.Cookie.Path = "/";
        cookie.Cookie.HttpOnly = true;
        cookie.Cookie.SameSite = SameSiteMode.Strict;
        cookie.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        cookie.CookieManager = new SafeCookies();
        // How long a session holds is for the house to say; see SessionStore.
        cookie.ExpireTimeSpan = SessionStore.Longest.ToTimeSpan();
        cookie.SlidingExpiration = false;
        cookie.Events.OnRedirectToLogin = refused =>
            refused.HttpContext.RefuseAsync(
                StatusCodes.Status401Unauthorized,
                refused.HttpContext.RequestServices.GetRequiredService<HousePeople>().HasOwner()
                    ? "sign-in-needed"
                    : "owner-missing"
            );
        cookie.Events.OnRedirectToAccessDenied = refused =>
            refused.HttpContext.RefuseAsync(StatusCodes.Status403Forbidden, "role-too-small");
    }
}
