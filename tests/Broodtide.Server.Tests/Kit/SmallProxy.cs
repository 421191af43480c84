using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace Broodtide.Server.Tests.Kit;

/// <summary>
/// A proxy as houses have one: it takes requests, says who called, by which name and by which scheme, and hands them
/// on. That the way to it was HTTPS is claimed, not done: what stands behind it cannot tell either.
/// </summary>
internal sealed class SmallProxy : IAsyncDisposable
{
    private readonly WebApplication _app;

    private SmallProxy(WebApplication app) => _app = app;

    public Uri Address => new(_app.Urls.First());

    /// <param name="target">What stands behind it.</param>
    /// <param name="scheme">By which scheme it says it was called.</param>
    /// <param name="host">By which name it says it was called.</param>
    /// <param name="caller">Who it says called.</param>
    /// <param name="ownHost">The header Host that it puts in place of the called name; none where it keeps that.</param>
    public static async Task<SmallProxy> Start(
        Uri target,
        string scheme,
        string host,
        string caller = "192.0.2.50",
        string? ownHost = null
    )
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false });
        var app = builder.Build();
        app.Run(async context =>
        {
            using var onward = new HttpRequestMessage(
                new HttpMethod(context.Request.Method),
                new Uri(target, context.Request.Path + context.Request.QueryString)
            );
            if (HttpMethods.IsPost(context.Request.Method))
            {
                onward.Content = new StreamContent(context.Request.Body);
                onward.Content.Headers.TryAddWithoutValidation("Content-Type", context.Request.ContentType);
                onward.Content.Headers.ContentLength = context.Request.ContentLength;
            }

            foreach (var (name, values) in context.Request.Headers)
            {
                if (
                    !name.StartsWith("Content-", StringComparison.OrdinalIgnoreCase)
                    && name is not ("Host" or "Transfer-Encoding")
                )
                {
                    onward.Headers.TryAddWithoutValidation(name, values.ToArray());
                }
            }

            onward.Headers.Host = ownHost ?? host;
            // Added behind what the caller claims, as proxies do.
            var claimed = context.Request.Headers["X-Forwarded-For"].ToString();
            Set("X-Forwarded-For", claimed.Length > 0 ? $"{claimed}, {caller}" : caller);
            Set("X-Forwarded-Proto", scheme);
            Set("X-Forwarded-Host", host);

            using var answer = await client.SendAsync(
                onward,
                HttpCompletionOption.ResponseHeadersRead,
                context.RequestAborted
            );
            context.Response.StatusCode = (int)answer.StatusCode;
            foreach (var (name, values) in answer.Headers.Concat(answer.Content.Headers))
            {
                if (name != "Transfer-Encoding")
                {
                    context.Response.Headers[name] = values.ToArray();
                }
            }

            if (answer.StatusCode is not (HttpStatusCode.NoContent or HttpStatusCode.NotModified))
            {
                await answer.Content.CopyToAsync(context.Response.Body, context.RequestAborted);
            }

            void Set(string name, string value)
            {
                onward.Headers.Remove(name);
                onward.Headers.TryAddWithoutValidation(name, value);
            }
        });
        await app.StartAsync(TestContext.Current.CancellationToken);
        return new(app);
    }

    public ValueTask DisposeAsync() => _app.DisposeAsync();
}
